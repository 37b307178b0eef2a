//! The system of a body, and its solution.

use std::collections::{BTreeMap, BTreeSet};

use rsparse::data::Sprs;

use super::body::{Body, BodyError, Face};

/// Air, or a surface held at a temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// A number of the caller's, by which flows are added up.
    pub id: usize,
    /// Resistance of the film, m²·K/W; 0 holds the face itself at the temperature.
    pub film: f64,
    /// Temperature beyond it, °C.
    pub temperature: f64,
}

/// Temperatures of a body and the heat through its surfaces, per metre of length.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    points: Vec<[f64; 2]>,
    temperatures: Vec<f64>,
    triangles: Vec<[usize; 3]>,
    flows: BTreeMap<usize, f64>,
}

impl Field {
    /// Heat into the body through a surface, W per metre of length.
    pub fn flow(&self, id: usize) -> f64 {
        self.flows.get(&id).copied().unwrap_or(0.0)
    }

    /// All heat that goes in, W/m.
    pub fn throughflow(&self) -> f64 {
        self.flows.values().filter(|flow| **flow > 0.0).sum()
    }

    /// What goes in and does not come out, as a share of what goes through.
    pub fn closure(&self) -> f64 {
        let most = self.throughflow();
        if most > 0.0 { self.flows.values().sum::<f64>().abs() / most } else { 0.0 }
    }

    /// Temperature at a point, °C; none outside the body.
    pub fn at(&self, [x, y]: [f64; 2]) -> Option<f64> {
        const EDGE: f64 = -1e-9;
        self.triangles.iter().find_map(|corners| {
            let [a, b, c] = corners.map(|i| self.points[i]);
            let twice = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
            let u = ((b[0] - x) * (c[1] - y) - (c[0] - x) * (b[1] - y)) / twice;
            let v = ((c[0] - x) * (a[1] - y) - (a[0] - x) * (c[1] - y)) / twice;
            let shares = [u, v, 1.0 - u - v];
            shares.iter().all(|share| *share >= EDGE).then(|| {
                shares.iter().zip(corners).map(|(share, corner)| share * self.temperatures[*corner]).sum()
            })
        })
    }

    /// The lowest and the highest temperature, °C.
    pub fn range(&self) -> [f64; 2] {
        let used = self.triangles.iter().flatten().map(|corner| self.temperatures[*corner]);
        used.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], t| [low.min(t), high.max(t)])
    }
}

/// Triangles with their conductivity, and the points they share.
struct Mesh {
    points: Vec<[f64; 2]>,
    triangles: Vec<[usize; 3]>,
    conductivities: Vec<f64>,
    /// The point where a line and a row meet.
    at: Vec<usize>,
    rows: usize,
}

impl Mesh {
    fn new(body: &Body) -> Self {
        let rows = body.rows_of_cells() + 1;
        let lines = body.columns() + 1;
        let mut mesh = Self {
            points: Vec::new(),
            triangles: Vec::new(),
            conductivities: Vec::new(),
            at: Vec::with_capacity(lines * rows),
            rows,
        };
        for line in 0..lines {
            for row in 0..rows {
                let point = body.point(line, row);
                // rows that have closed share their point
                let same =
                    row > 0 && mesh.points.last().is_some_and(|last| (last[1] - point[1]).abs() < 1e-12);
                if !same {
                    mesh.points.push(point);
                }
                mesh.at.push(mesh.points.len() - 1);
            }
        }
        for column in 0..body.columns() {
            for row in 0..body.rows_of_cells() {
                if let Some(k) = body.conductivity(column, row) {
                    mesh.cell(Body::corners(column, row), k);
                }
            }
        }
        mesh
    }

    fn point(&self, [line, row]: [usize; 2]) -> usize {
        self.at[line * self.rows + row]
    }

    /// A cell as triangles round its middle; one that ends in a point as the one it is.
    fn cell(&mut self, corners: [[usize; 2]; 4], k: f64) {
        let mut round: Vec<usize> = corners.iter().map(|corner| self.point(*corner)).collect();
        round.dedup();
        if round.first() == round.last() {
            round.pop();
        }
        if let [a, b, c] = round[..] {
            self.triangles.push([a, b, c]);
            self.conductivities.push(k);
            return;
        }
        let sum = round
            .iter()
            .fold([0.0, 0.0], |sum, i| [sum[0] + self.points[*i][0], sum[1] + self.points[*i][1]]);
        self.points.push(sum.map(|part| part / round.len() as f64));
        let middle = self.points.len() - 1;
        for (i, a) in round.iter().enumerate() {
            self.triangles.push([*a, round[(i + 1) % round.len()], middle]);
            self.conductivities.push(k);
        }
    }
}

/// Sum of what points give each other, and of what comes from outside.
struct System {
    /// Which unknown a point is; none where it is held or unused.
    unknown: Vec<Option<usize>>,
    /// By column, then row.
    matrix: BTreeMap<(usize, usize), f64>,
    right: Vec<f64>,
    held: Vec<Option<f64>>,
}

impl System {
    fn add(&mut self, i: usize, j: usize, value: f64) {
        let Some(row) = self.unknown[i] else { return };
        match (self.unknown[j], self.held[j]) {
            (Some(column), _) => *self.matrix.entry((column, row)).or_default() += value,
            (None, Some(t)) => self.right[row] -= value * t,
            (None, None) => {}
        }
    }

    /// By columns, compressed.
    fn columns(&self) -> Sprs<f64> {
        let count = self.right.len();
        let mut starts = vec![0; count + 1];
        self.matrix.keys().for_each(|(column, _)| starts[column + 1] += 1);
        (0..count).for_each(|column| starts[column + 1] += starts[column]);
        let i = self.matrix.keys().map(|(_, row)| *row).collect();
        let x: Vec<f64> = self.matrix.values().copied().collect();
        Sprs { nzmax: x.len(), m: count, n: count, p: starts, i, x }
    }
}

pub(super) fn solve(body: &Body, surface: &impl Fn(&Face) -> Option<Surface>) -> Result<Field, BodyError> {
    let mesh = Mesh::new(body);
    let mut faces = Vec::new();
    for (face, ends) in body.faces() {
        let Some(surface) = surface(&face) else { continue };
        if !(surface.film >= 0.0 && surface.film.is_finite() && surface.temperature.is_finite()) {
            return Err(BodyError::Surface(surface.film, surface.temperature));
        }
        faces.push((ends.map(|end| mesh.point(end)), surface));
    }
    is_held(&mesh, &faces)?;
    let temperatures = temperatures(&mesh, &faces);
    let flows = flows(&mesh, &faces, &temperatures);
    let Mesh { points, triangles, .. } = mesh;
    Ok(Field { points, temperatures, triangles, flows })
}

/// The part of the body a point is of, by one point that stands for it.
fn root(part: &mut [usize], mut point: usize) -> usize {
    while part[point] != point {
        part[point] = part[part[point]];
        point = part[point];
    }
    point
}

/// Whether every part of the body meets a surface.
fn is_held(mesh: &Mesh, faces: &[([usize; 2], Surface)]) -> Result<(), BodyError> {
    let mut part: Vec<usize> = (0..mesh.points.len()).collect();
    for [a, b, c] in &mesh.triangles {
        for other in [b, c] {
            let [x, y] = [*a, *other].map(|point| root(&mut part, point));
            part[x] = y;
        }
    }
    let held: BTreeSet<usize> = faces.iter().map(|([a, _], _)| root(&mut part, *a)).collect();
    let is_loose = |[a, ..]: &[usize; 3]| !held.contains(&root(&mut part, *a));
    if mesh.triangles.iter().any(is_loose) { Err(BodyError::Loose) } else { Ok(()) }
}

fn temperatures(mesh: &Mesh, faces: &[([usize; 2], Surface)]) -> Vec<f64> {
    let mut held = vec![None; mesh.points.len()];
    for (ends, surface) in faces.iter().filter(|(_, surface)| surface.film == 0.0) {
        for end in ends {
            held[*end] = Some(surface.temperature);
        }
    }
    let mut used = vec![false; mesh.points.len()];
    mesh.triangles.iter().flatten().for_each(|corner| used[*corner] = true);
    let mut count = 0;
    let unknown: Vec<Option<usize>> = (0..mesh.points.len())
        .map(|i| {
            (used[i] && held[i].is_none()).then(|| {
                count += 1;
                count - 1
            })
        })
        .collect();
    let mut system = System { unknown, matrix: BTreeMap::new(), right: vec![0.0; count], held };
    for (corners, k) in mesh.triangles.iter().zip(&mesh.conductivities) {
        let own = stiffness(corners.map(|i| mesh.points[i]), *k);
        for (i, row) in corners.iter().zip(own) {
            corners.iter().zip(row).for_each(|(j, value)| system.add(*i, *j, value));
        }
    }
    for (ends, surface) in faces.iter().filter(|(_, surface)| surface.film > 0.0) {
        let through = length(mesh, *ends) / surface.film;
        for (i, j) in [(0, 1), (1, 0)] {
            system.add(ends[i], ends[i], through / 3.0);
            system.add(ends[i], ends[j], through / 6.0);
            if let Some(row) = system.unknown[ends[i]] {
                system.right[row] += through / 2.0 * surface.temperature;
            }
        }
    }
    let columns = system.columns();
    let System { unknown, mut right, held, .. } = system;
    if count > 0 {
        // order 0: an ordering for symmetric matrices, so that factors stay sparse
        rsparse::cholsol(&columns, &mut right, 0).expect("a held body's system is positive definite");
    }
    unknown
        .iter()
        .zip(held)
        .map(|(unknown, held)| unknown.map_or(held.unwrap_or(0.0), |i| right[i]))
        .collect()
}

/// What the corners of a triangle give each other, W/(m·K).
fn stiffness([a, b, c]: [[f64; 2]; 3], k: f64) -> [[f64; 3]; 3] {
    let twice = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
    let steep = [[b[1] - c[1], c[0] - b[0]], [c[1] - a[1], a[0] - c[0]], [a[1] - b[1], b[0] - a[0]]];
    steep.map(|p| steep.map(|q| k * (p[0] * q[0] + p[1] * q[1]) / (2.0 * twice.abs())))
}

fn length(mesh: &Mesh, ends: [usize; 2]) -> f64 {
    let [p, q] = ends.map(|end| mesh.points[end]);
    (p[0] - q[0]).hypot(p[1] - q[1])
}

/// Heat in through each surface: by its film, or where a face is held by what its points give the body.
fn flows(mesh: &Mesh, faces: &[([usize; 2], Surface)], temperatures: &[f64]) -> BTreeMap<usize, f64> {
    let mut flows: BTreeMap<usize, f64> = BTreeMap::new();
    let mut holders: BTreeMap<usize, Vec<(usize, f64)>> = BTreeMap::new();
    for (ends, surface) in faces {
        let flow = flows.entry(surface.id).or_default();
        if surface.film > 0.0 {
            let mean = f64::midpoint(temperatures[ends[0]], temperatures[ends[1]]);
            *flow += length(mesh, *ends) * (surface.temperature - mean) / surface.film;
        } else {
            for end in ends {
                holders.entry(*end).or_default().push((surface.id, length(mesh, *ends)));
            }
        }
    }
    let mut given: BTreeMap<usize, f64> = BTreeMap::new();
    for (corners, k) in mesh.triangles.iter().zip(&mesh.conductivities) {
        let own = stiffness(corners.map(|i| mesh.points[i]), *k);
        for (i, row) in corners.iter().zip(own).filter(|(i, _)| holders.contains_key(i)) {
            let sum: f64 = corners.iter().zip(row).map(|(j, value)| value * temperatures[*j]).sum();
            *given.entry(*i).or_default() += sum;
        }
    }
    // a corner between two held faces belongs to both, by their lengths
    for (point, by) in holders {
        let whole: f64 = by.iter().map(|(_, length)| length).sum();
        let own = given.get(&point).copied().unwrap_or(0.0);
        for (id, length) in by {
            *flows.entry(id).or_default() += own * length / whole;
        }
    }
    flows
}
