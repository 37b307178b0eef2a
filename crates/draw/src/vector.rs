//! Arithmetic on points and directions of two and three coordinates.

/// A point or direction on the screen or on paper.
pub(crate) type P2 = [f64; 2];
/// A point or direction in space, metres.
pub(crate) type P3 = [f64; 3];

pub(crate) fn add<const N: usize>(a: [f64; N], b: [f64; N]) -> [f64; N] {
    std::array::from_fn(|i| a[i] + b[i])
}

pub(crate) fn sub<const N: usize>(a: [f64; N], b: [f64; N]) -> [f64; N] {
    std::array::from_fn(|i| a[i] - b[i])
}

pub(crate) fn scale<const N: usize>(a: [f64; N], times: f64) -> [f64; N] {
    a.map(|x| x * times)
}

/// `a + b * times`.
pub(crate) fn along<const N: usize>(a: [f64; N], b: [f64; N], times: f64) -> [f64; N] {
    add(a, scale(b, times))
}

/// The point `t` of the way from `a` to `b`.
pub(crate) fn between<const N: usize>(a: [f64; N], b: [f64; N], t: f64) -> [f64; N] {
    along(a, sub(b, a), t)
}

pub(crate) fn dot<const N: usize>(a: [f64; N], b: [f64; N]) -> f64 {
    let mut sum = 0.0;
    for i in 0..N {
        sum += a[i] * b[i];
    }
    sum
}

pub(crate) fn length<const N: usize>(a: [f64; N]) -> f64 {
    dot(a, a).sqrt()
}

pub(crate) fn distance<const N: usize>(a: [f64; N], b: [f64; N]) -> f64 {
    length(sub(b, a))
}

/// The direction of `a`; none when it is too short to have one.
pub(crate) fn unit<const N: usize>(a: [f64; N]) -> Option<[f64; N]> {
    let l = length(a);
    (l > 1e-9).then(|| scale(a, 1.0 / l))
}

/// Positive when `b` turns counter-clockwise from `a`, y up.
pub(crate) fn cross(a: P2, b: P2) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

/// `a` turned a quarter counter-clockwise, y up.
pub(crate) fn quarter(a: P2) -> P2 {
    [-a[1], a[0]]
}

/// `a` turned counter-clockwise, y up.
pub(crate) fn turned(a: P2, degrees: f64) -> P2 {
    let (sin, cos) = degrees.to_radians().sin_cos();
    [a[0] * cos - a[1] * sin, a[0] * sin + a[1] * cos]
}

pub(crate) fn cross3(a: P3, b: P3) -> P3 {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// The plan of a point in space.
pub(crate) fn plan_of(p: P3) -> P2 {
    [p[0], p[1]]
}
