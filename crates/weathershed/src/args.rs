//! What the command line takes.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};
use measure::Length;

const EXIT: &str = "Exit status: 0 done; 1 the job or the books have errors; 2 wrong usage; 3 a file could not be read or \
                    written; 4 a fault of weathershed itself.";

/// The working tool of a roofer in snow country.
#[derive(Debug, Parser)]
#[command(version, about, long_about = None, propagate_version = true, after_help = EXIT)]
pub(crate) struct Cli {
    #[command(subcommand)]
    pub(crate) command: Command,
    /// Say nothing but results and errors
    #[arg(long, short, global = true)]
    pub(crate) quiet: bool,
    /// When to use colour
    #[arg(long, value_enum, default_value_t = Color::Auto, global = true)]
    pub(crate) color: Color,
    /// Tables of your own on top of the books the program carries; may be given several times, later ones win
    #[arg(long, value_name = "FILE", global = true)]
    pub(crate) book: Vec<PathBuf>,
}

/// When to use colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Color {
    /// On a terminal, unless `NO_COLOR` is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Write a starter job with comments
    New {
        /// File to write; an existing file is left alone
        file: PathBuf,
    },
    /// Read a job and say what is wrong, where, and what would mend it
    Check {
        /// Job document
        job: PathBuf,
        /// Write the problems as JSON
        #[arg(long)]
        json: bool,
    },
    /// Change one value of a job; comments and everything else stay
    Set {
        /// Job document
        job: PathBuf,
        /// Which value, as in messages: `block.main.roof.pitch`
        path: String,
        /// What it shall be: `8/12`, `16 in`, `unknown`
        #[arg(allow_hyphen_values = true)]
        value: String,
    },
    /// The main job: every result and every paper into a folder
    Plan {
        /// Job document
        job: PathBuf,
        /// Folder to write; replaced whole, or not at all
        #[arg(long, short)]
        output: PathBuf,
        /// Write a summary of what was made as JSON
        #[arg(long)]
        json: bool,
        /// Houses that are run through the winter for ranges on its sheet, each with what nobody knows sharply drawn anew (48 take some ten seconds); 0 for single
        /// figures
        #[arg(long, value_name = "N", default_value_t = 0, value_parser = clap::value_parser!(u32).range(0..=100_000))]
        runs: u32,
    },
    /// Show one part of the results
    Show {
        /// Which part
        #[arg(value_enum)]
        part: Part,
        /// Job document
        job: PathBuf,
        /// Write it as JSON for programs
        #[arg(long)]
        json: bool,
        /// With `water`: a gutter or downspout that is blocked, by its name; may be given several times
        #[arg(long, value_name = "NAME")]
        blocked: Vec<String>,
        /// With `winter`: a year of weather, as an EPW or TMY3 file or as monthly climate normals; else the one the job names
        #[arg(long, value_name = "FILE")]
        weather: Option<PathBuf>,
        /// With `winter`: houses that are run through it, each with what nobody knows sharply drawn anew, for ranges (48 take some ten seconds); 0 for single
        /// figures; what the ice hangs on asks some hundred
        #[arg(long, value_name = "N", default_value_t = 48, value_parser = clap::value_parser!(u32).range(0..=100_000))]
        runs: u32,
        /// With `winter`: which houses are drawn; the same seed draws the same
        #[arg(long, value_name = "S", default_value_t = 1)]
        seed: u64,
    },
    /// Follow one drop of rain from where it falls on the roof, through the gutters of the job, to where it leaves
    Trace {
        /// Job document
        job: PathBuf,
        /// Where it falls: distance east in the plan of the job, such as `10'` or `3.05 m`
        #[arg(allow_hyphen_values = true)]
        x: Length,
        /// And north
        #[arg(allow_hyphen_values = true)]
        y: Length,
        /// Write it as JSON for programs
        #[arg(long)]
        json: bool,
        /// As if no gutter hung
        #[arg(long)]
        no_gutters: bool,
        /// A gutter or downspout that is blocked, by its name; may be given several times
        #[arg(long, value_name = "NAME", conflicts_with = "no_gutters")]
        blocked: Vec<String>,
    },
    /// Write the winter hour by hour, as found and as planned, as a table (CSV)
    Winter {
        /// Job document
        job: PathBuf,
        /// A year of weather, as an EPW or TMY3 file or as monthly climate normals; else the one the job names
        #[arg(long, value_name = "FILE")]
        weather: Option<PathBuf>,
        /// File to write; an existing file is left alone
        #[arg(long, value_name = "FILE")]
        hours: PathBuf,
        /// Write over a file that is there
        #[arg(long)]
        replace: bool,
    },
    /// Print the JSON Schema of the job document
    Schema,
    /// Print a completion script for a shell
    Completions {
        /// The shell
        #[arg(value_enum)]
        shell: clap_complete::Shell,
    },
}

/// A part of the results.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Part {
    /// Planes, edges and openings
    Roof,
    /// What water comes to each edge, where it leaves and what to look at
    Water,
    /// The layers at each edge, roof end and opening, and how many must fail before wood gets wet
    Detail,
    /// Quantities with their because
    Takeoff,
    /// What the adopted code asks, and whether what is found and planned does it
    Code,
    /// Where heat goes through the ceilings, what each fix saves, what insulation to buy
    Heat,
    /// Why ice comes back at the eaves, and which fix stops it; asks a year of weather
    Winter,
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_command_line_is_consistent() {
        Cli::command().debug_assert();
    }
}
