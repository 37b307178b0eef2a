//! Layers and framing to one thermal resistance.

use measure::{Area, RValue, UValue};
use thiserror::Error;

/// Shares of paths may miss one by this much, from being written with a few digits.
const SHARES: f64 = 1e-6;
/// Above this ratio of its bounds the mean of ISO 6946 is not to be used (ISO 6946:2017, 6.7.2.1; the figure from memory).
const MOST_APART: f64 = 1.5;

/// One layer, over the whole of an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// What it is.
    pub name: String,
    /// What it resists on each path.
    pub across: Across,
}

/// What a layer resists.
#[derive(Clone, Debug, PartialEq)]
pub enum Across {
    /// The same everywhere.
    Even(RValue),
    /// Path by path: insulation on one, wood on the next.
    Paths(Vec<RValue>),
}

/// Why layers make no assembly.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum AssemblyError {
    /// The paths do not add up to the whole.
    #[error("the shares of the paths add up to {0}; they are to add up to 1, each more than 0")]
    Shares(f64),
    /// A layer with another number of paths.
    #[error("`{layer}` has {has} paths; the assembly has {paths}")]
    Paths {
        /// The layer.
        layer: String,
        /// How many it has.
        has: usize,
        /// How many there are.
        paths: usize,
    },
    /// A layer whose resistance is negative or no number, or an assembly without any.
    #[error("the resistance of `{0}` is not a number of at least 0")]
    Resistance(String),
    /// A path on which nothing resists.
    #[error("nothing resists on path {0}")]
    Open(usize),
}

/// Layers between two surface films, with the paths heat takes through them side by side.
///
/// # Valid range
/// Plane layers, paths that run through the whole of it. Metal that bridges insulation conducts far beyond its own path: solve that in
/// [`crate::conduct`].
#[derive(Clone, Debug, PartialEq)]
pub struct Assembly {
    shares: Vec<f64>,
    films: [RValue; 2],
    layers: Vec<Layer>,
}

/// The two limits between which the resistance of an assembly lies, and their mean (ISO 6946:2017, 6.7.2).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// As if heat could not spread sideways: the parallel paths.
    pub upper: RValue,
    /// As if each layer were one temperature: the isothermal planes.
    pub lower: RValue,
}

impl Bounds {
    /// The mean of both, which the standard takes.
    pub fn mean(&self) -> RValue {
        (self.upper + self.lower) * 0.5
    }

    /// The most by which the mean may be wrong, as a share of it.
    pub fn error(&self) -> f64 {
        let mean = self.mean().si();
        if mean > 0.0 { (self.upper.si() - self.lower.si()) / (2.0 * mean) } else { 0.0 }
    }

    /// Whether they lie close enough together for the mean to be used.
    pub fn are_close(&self) -> bool {
        self.upper.si() <= MOST_APART * self.lower.si()
    }
}

impl Assembly {
    /// Layers from the inside out, with the film inside and the film outside; `shares` are of the area, path by path.
    ///
    /// # Errors
    /// Shares that are not a whole, layers that do not fit the paths, resistances below 0, a path without any resistance.
    pub fn new(shares: Vec<f64>, films: [RValue; 2], layers: Vec<Layer>) -> Result<Self, AssemblyError> {
        let whole: f64 = shares.iter().sum();
        if !((whole - 1.0).abs() <= SHARES && shares.iter().all(|share| *share > 0.0)) {
            return Err(AssemblyError::Shares(whole));
        }
        for layer in &layers {
            if let Across::Paths(paths) = &layer.across
                && paths.len() != shares.len()
            {
                let (has, paths) = (paths.len(), shares.len());
                return Err(AssemblyError::Paths { layer: layer.name.clone(), has, paths });
            }
            let is_sound = |r: &RValue| r.si() >= 0.0 && r.si().is_finite();
            if !layer.across.all().iter().all(is_sound) {
                return Err(AssemblyError::Resistance(layer.name.clone()));
            }
        }
        if films.iter().any(|film| !(film.si() >= 0.0 && film.si().is_finite())) {
            return Err(AssemblyError::Resistance("surface film".into()));
        }
        let assembly = Self { shares, films, layers };
        match (0..assembly.shares.len()).find(|path| assembly.along(*path).si() <= 0.0) {
            Some(path) => Err(AssemblyError::Open(path + 1)),
            None => Ok(assembly),
        }
    }

    /// Resistance of one path from air to air.
    pub fn along(&self, path: usize) -> RValue {
        self.layers.iter().fold(self.films[0] + self.films[1], |sum, layer| sum + layer.across.on(path))
    }

    /// Transmittance by parallel paths, as North American handbooks take wood framing.
    pub fn parallel(&self) -> UValue {
        let paths = self.shares.iter().enumerate();
        UValue::from_si(paths.map(|(path, share)| share / self.along(path).si()).sum())
    }

    /// Transmittance by isothermal planes, for where a layer spreads heat.
    pub fn planes(&self) -> UValue {
        let layers = self.layers.iter().map(|layer| match &layer.across {
            Across::Even(r) => r.si(),
            Across::Paths(paths) => {
                let beside = self.shares.iter().zip(paths).map(|(share, r)| share / r.si());
                beside.sum::<f64>().recip()
            }
        });
        let films = self.films[0].si() + self.films[1].si();
        UValue::from_si((films + layers.sum::<f64>()).recip())
    }

    /// Both limits of ISO 6946.
    pub fn bounds(&self) -> Bounds {
        let inverse = |u: UValue| RValue::from_si(u.si().recip());
        Bounds { upper: inverse(self.parallel()), lower: inverse(self.planes()) }
    }
}

impl Across {
    fn on(&self, path: usize) -> RValue {
        match self {
            Self::Even(r) => *r,
            Self::Paths(paths) => paths[path],
        }
    }

    fn all(&self) -> &[RValue] {
        match self {
            Self::Even(r) => std::slice::from_ref(r),
            Self::Paths(paths) => paths,
        }
    }
}

/// The transmittance of surfaces side by side: by area, never a mean of resistances. None where there is no area.
pub fn beside(surfaces: impl IntoIterator<Item = (Area, UValue)>) -> Option<UValue> {
    let (area, loss) =
        surfaces.into_iter().fold((0.0, 0.0), |(area, loss), (a, u)| (area + a.m2(), loss + a.m2() * u.si()));
    (area > 0.0).then(|| UValue::from_si(loss / area))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn even(name: &str, r: f64) -> Layer {
        Layer { name: name.into(), across: Across::Even(RValue::from_us(r)) }
    }

    fn stud_wall(cavity: f64) -> Result<Assembly, AssemblyError> {
        let filled = [cavity, 4.38].map(RValue::from_us).to_vec();
        let layers = vec![
            even("gypsum", 0.45),
            Layer { name: "studs".into(), across: Across::Paths(filled) },
            even("foam", 4.0),
            even("siding", 0.81),
        ];
        Assembly::new(vec![0.75, 0.25], [0.68, 0.17].map(RValue::from_us), layers)
    }

    #[test]
    fn shares_that_are_no_whole_and_layers_that_do_not_fit_are_refused() {
        let films = [RValue::ZERO; 2];
        let layer = || vec![even("board", 1.0)];
        assert_eq!(Assembly::new(vec![0.5, 0.4], films, layer()), Err(AssemblyError::Shares(0.9)));
        assert!(Assembly::new(vec![1.2, -0.2], films, layer()).is_err());
        let three = Layer { name: "studs".into(), across: Across::Paths(vec![RValue::ZERO; 3]) };
        let told = Assembly::new(vec![0.5, 0.5], films, vec![three]).unwrap_err();
        assert_eq!(told.to_string(), "`studs` has 3 paths; the assembly has 2");
        let bare =
            Layer { name: "hole".into(), across: Across::Paths([1.0, 0.0].map(RValue::from_si).to_vec()) };
        assert_eq!(Assembly::new(vec![0.5, 0.5], films, vec![bare]), Err(AssemblyError::Open(2)));
        assert!(matches!(stud_wall(f64::NAN), Err(AssemblyError::Resistance(_))));
    }

    #[test]
    fn more_insulation_lets_less_through_and_planes_let_through_more_than_paths() {
        let us: Vec<Assembly> = [3.0, 7.0, 13.0, 21.0].map(|r| stud_wall(r).unwrap()).to_vec();
        for pair in us.windows(2) {
            assert!(pair[1].parallel() < pair[0].parallel() && pair[1].planes() < pair[0].planes());
        }
        for wall in &us {
            assert!(wall.planes() >= wall.parallel());
            assert!(wall.bounds().error() >= 0.0 && wall.bounds().are_close());
        }
    }
}
