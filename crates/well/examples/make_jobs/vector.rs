//! Directions as unit vectors: north, east, down.

/// North, east, down.
pub type Vector = [f64; 3];

/// Dot product.
pub fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Cross product.
pub fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// `a * x + b * y`.
pub fn scaled_sum(a: Vector, x: f64, b: Vector, y: f64) -> Vector {
    [a[0] * x + b[0] * y, a[1] * x + b[1] * y, a[2] * x + b[2] * y]
}

/// Of length 1; zero stays zero.
pub fn unit(a: Vector) -> Vector {
    let length = dot(a, a).sqrt();
    if length > 0.0 { a.map(|x| x / length) } else { a }
}

/// The part of `target` that stands across `along`, of length 1.
pub fn across(target: Vector, along: Vector) -> Vector {
    unit(scaled_sum(target, 1.0, along, -dot(target, along)))
}

/// Direction of an inclination and an azimuth, in degrees.
pub fn from_angles(inclination: f64, azimuth: f64) -> Vector {
    let (i, a) = (inclination.to_radians(), azimuth.to_radians());
    [libm::sin(i) * libm::cos(a), libm::sin(i) * libm::sin(a), libm::cos(i)]
}

/// Inclination and azimuth of a direction, in degrees.
pub fn angles(d: Vector) -> (f64, f64) {
    let inclination = libm::atan2((d[0] * d[0] + d[1] * d[1]).sqrt(), d[2]).to_degrees();
    let azimuth = libm::atan2(d[1], d[0]).to_degrees();
    (inclination, if azimuth < 0.0 { azimuth + 360.0 } else { azimuth })
}
