//! Houses written to measure, as job documents.

use std::fmt::Write as _;

/// A rectangular block; lengths in feet.
#[derive(Clone, Debug)]
pub struct Made {
    pub name: &'static str,
    /// South-west corner before the house is turned.
    pub at: [f64; 2],
    pub size: [f64; 2],
    pub plate: f64,
    /// The `roof` of the document.
    pub roof: String,
    /// As far as keeps its fascia level with main where none.
    pub eave: Option<f64>,
    pub rake: f64,
    pub fascia: f64,
    /// On posts.
    pub open: bool,
}

/// A house of blocks on a site.
#[derive(Clone, Debug)]
pub struct House {
    pub blocks: Vec<Made>,
    pub code: &'static str,
    pub ice_history: bool,
    pub wall_line: &'static str,
    pub wall_thickness_in: f64,
    pub turn_degrees: f64,
    /// More of the document, after the blocks.
    pub more: String,
}

impl House {
    pub fn of(blocks: Vec<Made>) -> Self {
        Self {
            blocks,
            code: "irc-2018",
            ice_history: true,
            wall_line: "outside",
            wall_thickness_in: 6.0,
            turn_degrees: 0.0,
            more: String::new(),
        }
    }

    /// One block of 40 by 28 ft with one overhang all round.
    pub fn plain(roof: &str, overhang: f64) -> Self {
        Self::of(vec![Made::new("main", [0.0, 0.0], [40.0, 28.0], roof, overhang, overhang)])
    }

    pub fn code(mut self, code: &'static str) -> Self {
        self.code = code;
        self
    }

    pub fn turned(mut self, degrees: f64) -> Self {
        self.turn_degrees = degrees;
        self
    }

    /// As in a mirror that stands north and south.
    pub fn mirrored(mut self) -> Self {
        for block in &mut self.blocks {
            block.at[0] = -block.at[0] - block.size[0];
            block.roof = block.roof.replace("east", "EAST").replace("west", "east").replace("EAST", "west");
        }
        self
    }

    /// All lengths of the blocks so many times as long.
    pub fn scaled(mut self, times: f64) -> Self {
        for block in &mut self.blocks {
            let own = [&mut block.plate, &mut block.rake, &mut block.fascia];
            let lengths = block.at.iter_mut().chain(&mut block.size).chain(own).chain(&mut block.eave);
            lengths.for_each(|length| *length *= times);
        }
        self
    }

    /// The job document.
    pub fn document(&self) -> String {
        let mut text = format!(
            "weathershed = 1\ntitle = \"made\"\n[site]\ncode = \"{}\"\nice_history = {}\nwall_line = \"{}\"\n\
             wall_thickness = \"{} in\"\nrain = \"6 in/h\"\n[covering]\nshingle = \"shingle-laminated-metric\"\nexposure = \"5 5/8 in\"\n",
            self.code, self.ice_history, self.wall_line, self.wall_thickness_in
        );
        for block in &self.blocks {
            block.write(self.turn_degrees, &mut text);
        }
        text + &self.more
    }
}

impl Made {
    pub fn new(name: &'static str, at: [f64; 2], size: [f64; 2], roof: &str, eave: f64, rake: f64) -> Self {
        Self {
            name,
            at,
            size,
            plate: 9.0,
            roof: roof.to_owned(),
            eave: Some(eave),
            rake,
            fascia: 0.5,
            open: false,
        }
    }

    fn write(&self, turn: f64, text: &mut String) {
        let (sin, cos) = turn.to_radians().sin_cos();
        let [x, y] = self.at;
        let eave = self.eave.map_or("level with main".to_owned(), |eave| format!("{eave:.9} ft"));
        let _ = write!(
            text,
            "[[block]]\nname = \"{}\"\nat = [\"{:.9} ft\", \"{:.9} ft\"]\nsize = [\"{:.9} ft\", \"{:.9} ft\"]\nturn = \"{turn} deg\"\n\
             plate = \"{:.9} ft\"\nroof = {}\noverhang = {{ eave = \"{eave}\", rake = \"{:.9} ft\" }}\nfascia = \"{:.9} ft\"\nopen = {}\n",
            self.name,
            x * cos - y * sin,
            x * sin + y * cos,
            self.size[0],
            self.size[1],
            self.plate,
            self.roof,
            self.rake,
            self.fascia,
            self.open
        );
    }
}
