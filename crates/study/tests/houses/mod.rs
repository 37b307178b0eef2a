//! Houses for tests, described by the runs a person tapes, and documents written from them. Lengths in feet.
#![allow(dead_code, unreachable_pub, reason = "each test binary uses its own part")]

pub mod random;

use std::fmt::Write as _;
use std::sync::LazyLock;

use book::Book;
use job::{Job, Problem};
use study::Adjusted;

pub static BOOK: LazyLock<Book> = LazyLock::new(Book::builtin);

/// One of the two walls of a block across an axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End {
    Low,
    High,
}

/// How a block was placed along an axis.
#[derive(Clone, Copy, Debug)]
pub enum Placed {
    /// Its low wall taped from the low wall of the first block.
    At(f64),
    /// One of its walls in line with one of an earlier block.
    InLine { mine: End, block: usize, its: End },
}

#[derive(Clone, Copy, Debug)]
pub enum Form {
    /// Ridge along x or y (axis 0 or 1).
    Gable {
        ridge: usize,
    },
    Hip,
    /// A hip roof with a gable on the low or the high side of an axis.
    HipAndGable {
        axis: usize,
        end: End,
    },
    /// Low side: south.
    Shed,
}

/// A block as taped.
#[derive(Clone, Debug)]
pub struct Part {
    pub name: String,
    pub size: [f64; 2],
    pub placed: [Placed; 2],
    /// Its plate; that of another block when they are one height.
    pub plate: Shared,
    pub pitch: f64,
    pub overhang: Shared,
    pub form: Form,
}

/// A figure taped for this block, or taken over from another.
#[derive(Clone, Copy, Debug)]
pub enum Shared {
    Own(f64),
    Of(usize),
}

#[derive(Clone, Debug)]
pub struct House {
    pub parts: Vec<Part>,
    /// Of the whole house about its datum.
    pub turn_degrees: f64,
}

/// A tape reading, part of the blocks or spare.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tape {
    Size(usize, usize),
    Place(usize, usize),
    Plate(usize),
    Overhang(usize),
    Spare(usize),
}

/// A spare reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spare {
    Diagonal(usize),
    /// Block and corner from 0, counter-clockwise from the south-west.
    Distance([(usize, usize); 2]),
    /// Wall across an axis at an end... south, east, north, west by number.
    Wall(usize, usize),
    Eave(usize),
    Ridge(usize),
    Rafter(usize),
}

const SIDES: [&str; 4] = ["south", "east", "north", "west"];
const CORNERS: [&str; 4] = ["south-west", "south-east", "north-east", "north-west"];

impl House {
    fn part(&self, block: usize) -> &Part {
        &self.parts[block]
    }

    pub fn plate(&self, block: usize) -> f64 {
        match self.parts[block].plate {
            Shared::Own(plate) => plate,
            Shared::Of(other) => self.plate(other),
        }
    }

    pub fn overhang(&self, block: usize) -> f64 {
        match self.parts[block].overhang {
            Shared::Own(overhang) => overhang,
            Shared::Of(other) => self.overhang(other),
        }
    }

    /// Low and high wall of a block across an axis.
    pub fn walls(&self, block: usize, axis: usize) -> [f64; 2] {
        let size = self.parts[block].size[axis];
        let low = match self.parts[block].placed[axis] {
            Placed::At(at) => at,
            Placed::InLine { mine, block, its } => {
                let line = self.walls(block, axis)[usize::from(its == End::High)];
                if mine == End::High { line - size } else { line }
            }
        };
        [low, low + size]
    }

    pub fn corner(&self, (block, corner): (usize, usize)) -> [f64; 2] {
        let [x, y] = [0, 1].map(|axis| self.walls(block, axis));
        [x[usize::from(corner == 1 || corner == 2)], y[usize::from(corner >= 2)]]
    }

    /// Height of the ridge over the plate, by hand for each form.
    pub fn rise(&self, block: usize) -> f64 {
        let Part { size, pitch, form, .. } = self.part(block);
        let run = match form {
            Form::Gable { ridge } => size[1 - ridge] / 2.0,
            Form::Hip => size[0].min(size[1]) / 2.0,
            Form::HipAndGable { axis, .. } => size[*axis].min(size[1 - axis] / 2.0),
            Form::Shed => size[1],
        };
        run * pitch / 12.0
    }

    pub fn truth(&self, spare: Spare) -> f64 {
        match spare {
            Spare::Diagonal(block) => self.part(block).size[0].hypot(self.part(block).size[1]),
            Spare::Distance([from, to]) => {
                let ([a, b], [c, d]) = (self.corner(from), self.corner(to));
                (c - a).hypot(d - b)
            }
            Spare::Wall(block, side) => self.part(block).size[side % 2],
            Spare::Eave(block) => self.plate(block) - self.overhang(block) * self.part(block).pitch / 12.0,
            Spare::Ridge(block) => self.plate(block) + self.rise(block),
            Spare::Rafter(block) => self.rise(block).hypot(self.rise(block) * 12.0 / self.part(block).pitch),
        }
    }

    /// A side that slopes.
    fn slope(&self, block: usize) -> &'static str {
        match self.part(block).form {
            Form::Gable { ridge: 1 } | Form::HipAndGable { axis: 1, .. } => "east",
            _ => "south",
        }
    }

    /// Everything taped of the blocks.
    pub fn tapes(&self) -> Vec<Tape> {
        let mut tapes = Vec::new();
        for (block, part) in self.parts.iter().enumerate() {
            for axis in 0..2 {
                tapes.push(Tape::Size(block, axis));
                if matches!(part.placed[axis], Placed::At(_)) && block > 0 {
                    tapes.push(Tape::Place(block, axis));
                }
            }
            tapes.extend(matches!(part.plate, Shared::Own(_)).then_some(Tape::Plate(block)));
            tapes.extend(matches!(part.overhang, Shared::Own(_)).then_some(Tape::Overhang(block)));
        }
        tapes
    }

    /// The house with one taped figure changed.
    pub fn changed(&self, tape: Tape, by: f64) -> Self {
        let mut house = self.clone();
        match tape {
            Tape::Size(block, axis) => house.parts[block].size[axis] += by,
            Tape::Place(block, axis) => {
                if let Placed::At(at) = &mut house.parts[block].placed[axis] {
                    *at += by;
                }
            }
            Tape::Plate(block) => house.parts[block].plate = Shared::Own(house.plate(block) + by),
            Tape::Overhang(block) => house.parts[block].overhang = Shared::Own(house.overhang(block) + by),
            Tape::Spare(_) => {}
        }
        house
    }

    /// The house with every block placed by itself, so that changing one figure moves nothing else.
    pub fn loosened(&self) -> Self {
        let mut house = self.clone();
        for block in 0..house.parts.len() {
            house.parts[block].placed = [0, 1].map(|axis| Placed::At(self.walls(block, axis)[0]));
            house.parts[block].plate = Shared::Own(self.plate(block));
            house.parts[block].overhang = Shared::Own(self.overhang(block));
        }
        house
    }

    /// What the study calls a tape reading.
    pub fn name(&self, tape: Tape, spares: &[(Spare, f64)]) -> String {
        let name = |block: usize| &self.part(block).name;
        let axes = ["x", "y"];
        match tape {
            Tape::Size(block, axis) => format!("size of {} along its {}", name(block), axes[axis]),
            Tape::Place(block, axis) => format!("place of {} along the house's {}", name(block), axes[axis]),
            Tape::Plate(block) => format!("plate of {}", name(block)),
            Tape::Overhang(block) => format!("overhang of {}", name(block)),
            Tape::Spare(spare) => match spares[spare].0 {
                Spare::Diagonal(block) => format!("diagonal of {}", name(block)),
                Spare::Distance([(a, i), (b, j)]) => {
                    format!(
                        "distance from {} corner of {} to {} corner of {}",
                        CORNERS[i],
                        name(a),
                        CORNERS[j],
                        name(b)
                    )
                }
                Spare::Wall(block, side) => format!("{} wall of {}", SIDES[side], name(block)),
                Spare::Eave(block) => format!("{} eave height of {}", self.slope(block), name(block)),
                Spare::Ridge(block) => format!("ridge height of {}", name(block)),
                Spare::Rafter(block) => format!("{} rafter of {}", self.slope(block), name(block)),
            },
        }
    }

    /// The job document of the house with spare readings.
    pub fn document(&self, spares: &[(Spare, f64)]) -> String {
        let mut text = HEAD.to_owned();
        for block in 0..self.parts.len() {
            self.write_block(block, &mut text);
        }
        for (spare, value) in spares {
            self.write_reading(*spare, *value, &mut text);
        }
        text
    }

    fn write_block(&self, block: usize, text: &mut String) {
        let Part { name, size: [w, d], pitch, form, .. } = self.part(block);
        let [[x, _], [y, _]] = [0, 1].map(|axis| self.walls(block, axis));
        let (sine, cosine) = self.turn_degrees.to_radians().sin_cos();
        let (x, y, turn) = (x * cosine - y * sine, x * sine + y * cosine, self.turn_degrees);
        let pitch = format!("pitch = \"{pitch:.9}/12\"");
        let roof = match form {
            Form::Gable { ridge } => format!("form = \"gable\", ridge = \"{}\", {pitch}", ["x", "y"][*ridge]),
            Form::Hip => format!("form = \"hip\", {pitch}"),
            Form::HipAndGable { axis, end } => {
                let side = SIDES[[[3, 1], [0, 2]][*axis][usize::from(*end == End::High)]];
                format!("form = \"hip\", {pitch}, gable = [\"{side}\"]")
            }
            Form::Shed => format!("form = \"shed\", high = \"north\", {pitch}"),
        };
        let (plate, overhang) = (self.plate(block), self.overhang(block));
        let _ = write!(
            text,
            "[[block]]\nname = \"{name}\"\nat = [\"{x:.9} ft\", \"{y:.9} ft\"]\nsize = [\"{w:.9} ft\", \"{d:.9} ft\"]\nturn = \"{turn} deg\"\n\
             plate = \"{plate:.9} ft\"\nroof = {{ {roof} }}\noverhang = \"{overhang:.9} ft\"\nfascia = \"6 in\"\n"
        );
    }

    fn write_reading(&self, spare: Spare, value: f64, text: &mut String) {
        let name = |block: usize| &self.part(block).name;
        let what = match spare {
            Spare::Diagonal(block) => format!("what = \"diagonal\"\nof = \"{}\"", name(block)),
            Spare::Distance([(a, i), (b, j)]) => format!(
                "what = \"distance\"\nfrom = \"{} {}\"\nto = \"{} {}\"",
                name(a),
                CORNERS[i],
                name(b),
                CORNERS[j]
            ),
            Spare::Wall(block, side) => format!("what = \"wall\"\nof = \"{} {}\"", name(block), SIDES[side]),
            Spare::Eave(block) => {
                format!("what = \"eave height\"\nof = \"{} {}\"", name(block), self.slope(block))
            }
            Spare::Ridge(block) => format!("what = \"ridge height\"\nof = \"{}\"", name(block)),
            Spare::Rafter(block) => {
                format!("what = \"rafter\"\nof = \"{} {}\"", name(block), self.slope(block))
            }
        };
        let _ = write!(text, "[[reading]]\n{what}\nvalue = \"{value:.9} ft\"\n");
    }

    /// True values of spare readings.
    pub fn true_spares(&self, spares: &[Spare]) -> Vec<(Spare, f64)> {
        spares.iter().map(|spare| (*spare, self.truth(*spare))).collect()
    }
}

const HEAD: &str = "weathershed = 1\ntitle = \"made\"\n[site]\ncode = \"irc-2018\"\nice_history = true\nwall_line = \"outside\"\n\
    rain = \"6 in/h\"\n[covering]\nshingle = \"shingle-laminated-metric\"\nexposure = \"5 5/8 in\"\n";

/// Diagonals of all blocks, two distances from corners of each block to corners of the first, and of each block eave, ridge and rafter: what
/// a careful person tapes when there is time.
pub fn realistic_spares(house: &House) -> Vec<Spare> {
    let mut spares = Vec::new();
    for block in 0..house.parts.len() {
        spares.extend([
            Spare::Diagonal(block),
            Spare::Eave(block),
            Spare::Ridge(block),
            Spare::Rafter(block),
        ]);
        if block > 0 {
            let apart = [[(0, 0), (block, 1)], [(0, 2), (block, 0)]].map(Spare::Distance);
            spares.extend(apart.into_iter().filter(|apart| house.truth(*apart) > 2.0));
        }
    }
    spares
}

pub fn read(document: &str) -> Job {
    match Job::read(document, &BOOK) {
        Ok((job, _)) => job,
        Err(problems) => panic!("{}", plain(&problems, document)),
    }
}

pub fn plain(problems: &[Problem], text: &str) -> String {
    problems.iter().map(|problem| problem.plain(text)).collect()
}

/// Adjusts a document, which must be readable.
pub fn adjust(document: &str) -> Adjusted {
    let adjusted = Adjusted::of(&read(document), &BOOK);
    adjusted.unwrap_or_else(|problems| panic!("{}", plain(&problems, document)))
}

fn part(name: &str, size: [f64; 2], placed: [Placed; 2], plate: Shared, pitch: f64, form: Form) -> Part {
    Part { name: name.into(), size, placed, plate, pitch, overhang: Shared::Own(1.0), form }
}

fn in_line(mine: End, block: usize, its: End) -> Placed {
    Placed::InLine { mine, block, its }
}

/// The cross-gable example, by its tape.
pub fn cross_gable() -> House {
    let at_0 = Placed::At(0.0);
    let mut main = part("main", [40.0, 26.0], [at_0; 2], Shared::Own(17.0), 6.0, Form::Gable { ridge: 0 });
    main.overhang = Shared::Own(16.0 / 12.0);
    let south = in_line(End::High, 0, End::Low);
    let mut wing =
        part("wing", [16.0, 10.0], [Placed::At(20.0), south], Shared::Of(0), 9.0, Form::Gable { ridge: 1 });
    wing.overhang = Shared::Own(8.0 / 9.0);
    let against = in_line(End::High, 1, End::Low);
    let porch = part("porch", [18.0, 8.0], [against, south], Shared::Own(7.25), 3.0, Form::Shed);
    House { parts: vec![main, wing, porch], turn_degrees: 0.0 }
}

/// The hip split level example, by its tape.
pub fn hip_split_level() -> House {
    let at_0 = Placed::At(0.0);
    let mut upper = part("upper", [32.0, 26.0], [at_0; 2], Shared::Own(13.0), 4.0, Form::Hip);
    upper.overhang = Shared::Own(2.0);
    let beside = in_line(End::Low, 0, End::High);
    let form = Form::HipAndGable { axis: 0, end: End::Low };
    let mut main = part("main", [28.0, 20.0], [beside, Placed::At(3.0)], Shared::Own(8.0), 4.0, form);
    main.overhang = Shared::Of(0);
    let placed = [in_line(End::High, 1, End::High), in_line(End::High, 1, End::Low)];
    let form = Form::HipAndGable { axis: 1, end: End::High };
    let mut garage = part("garage", [20.0, 22.0], placed, Shared::Of(1), 4.0, form);
    garage.overhang = Shared::Of(0);
    House { parts: vec![upper, main, garage], turn_degrees: 0.0 }
}
