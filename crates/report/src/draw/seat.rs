//! Balls on their seats, all at one true scale: bore, seat, cone, ball, and the three sizes that
//! decide.

use quantity::{Angle, Diameter, Quantity, System};

use super::svg::{Anchor, Letters, Pen, Svg, ink};

/// One ball on its seat.
#[derive(Debug, Clone)]
pub struct SeatPicture {
    /// What stands under it, such as "stage 12".
    pub name: String,
    /// Bore beside the seat.
    pub bore: Diameter,
    /// Seat.
    pub seat: Diameter,
    /// Ball.
    pub ball: Diameter,
    /// Half angle of the cone.
    pub angle: Angle,
}

/// Points on paper for an inch of steel.
#[derive(Debug, Clone, Copy)]
pub struct Scale(pub f64);

/// Scales a drawing office would take: life size over these.
const REDUCTIONS: &[f64] = &[1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0];

/// Room round a picture for the wall and the words.
const ROOM: (f64, f64) = (22.0, 46.0);

impl Scale {
    /// The largest usual scale at which all pictures fit a sheet of the size given.
    pub fn fitting(pictures: &[SeatPicture], size: (f64, f64), columns: usize) -> Self {
        let widest = pictures.iter().map(|p| p.bore.in_inch()).fold(0.1, f64::max);
        let rows = pictures.len().div_ceil(columns.max(1)).max(1) as f64;
        let fits = |points: f64| {
            (widest * points + ROOM.0) * columns as f64 <= size.0
                && (widest * points + ROOM.1) * rows + 12.0 <= size.1
        };
        let points = REDUCTIONS.iter().map(|r| 72.0 / r).find(|p| fits(*p));
        Self(points.unwrap_or(72.0 / 20.0))
    }

    /// The scale in words: how many times smaller than life.
    pub fn words(self) -> String {
        let ratio = 72.0 / self.0;
        if ratio >= 1.0 { format!("drawn 1 : {ratio:.1}") } else { format!("drawn {:.1} : 1", 1.0 / ratio) }
    }
}

/// A sheet of pictures in rows, all at the same scale.
pub fn seats(pictures: &[SeatPicture], scale: Scale, columns: usize, system: System) -> String {
    let widest = pictures.iter().map(|p| p.bore.in_inch()).fold(1.0, f64::max);
    let cell = (widest * scale.0 + ROOM.0, widest * scale.0 + ROOM.1);
    let columns = columns.max(1);
    let rows = pictures.len().div_ceil(columns).max(1);
    let mut svg = Svg::new(cell.0 * columns as f64, cell.1 * rows as f64 + 12.0);
    for (i, picture) in pictures.iter().enumerate() {
        let corner = ((i % columns) as f64 * cell.0, (i / columns) as f64 * cell.1);
        one(&mut svg, picture, scale, corner, cell, system);
    }
    let foot = format!("All at one scale, {}. Flow is downwards; the toe is below.", scale.words());
    svg.text((2.0, svg.height() - 3.0), &foot, Letters::plain(6.5, Anchor::Start), ink::GREY);
    svg.finish()
}

fn one(svg: &mut Svg, p: &SeatPicture, scale: Scale, corner: (f64, f64), cell: (f64, f64), system: System) {
    let middle = corner.0 + 0.5 * cell.0;
    let inch = scale.0;
    let (bore, seat, ball) =
        (0.5 * p.bore.in_inch() * inch, 0.5 * p.seat.in_inch() * inch, 0.5 * p.ball.in_inch() * inch);
    let top = corner.1 + 4.0;
    let height = 2.0 * bore + 6.0;
    let cone = ((bore - seat) / p.angle.si().tan().max(0.05)).min(0.55 * height);
    let lip = top + height - 6.0;
    let start = lip - 6.0 - cone;
    for side in [-1.0, 1.0] {
        let x = |r: f64| middle + side * r;
        let wall = bore + 5.0;
        let shape = [
            (x(wall), top),
            (x(bore), top),
            (x(bore), start),
            (x(seat), start + cone),
            (x(seat), lip),
            (x(bore), lip + 2.0),
            (x(bore), top + height),
            (x(wall), top + height),
        ];
        svg.polygon(&shape, Pen::outlined(ink::STEEL, ink::BLACK, 0.4));
    }
    svg.circle(
        (middle, ball_centre(p, inch, start, cone, seat, ball)),
        ball,
        Pen::outlined("#f3d9a4", ink::BLACK, 0.7),
    );
    let base = top + height;
    let text = |svg: &mut Svg, line: f64, s: &str, bold: bool| {
        let letters =
            if bold { Letters::bold(6.8, Anchor::Middle) } else { Letters::plain(6.2, Anchor::Middle) };
        svg.text((middle, base + line), s, letters, ink::BLACK);
    };
    text(svg, 9.0, &p.name, true);
    text(svg, 17.0, &format!("ball {}", p.ball.text(system)), false);
    text(svg, 24.5, &format!("seat {}", p.seat.text(system)), false);
    let over = Diameter::inch(p.ball.in_inch() - p.seat.in_inch());
    text(svg, 32.0, &format!("overlap {}", over.text(system)), false);
}

/// Where the ball's centre comes to rest: tangent to the cone, or on the edge of the bore.
fn ball_centre(p: &SeatPicture, inch: f64, start: f64, cone: f64, seat: f64, ball: f64) -> f64 {
    let edge = start + cone;
    let beta = p.angle.si();
    if ball * beta.cos() > seat {
        // Tangent: the touching circle has radius r cos(beta), the centre stands r sin(beta) above it.
        let touch = ball * beta.cos();
        let along = (touch - seat) / beta.tan().max(0.05);
        edge - along - ball * beta.sin()
    } else {
        let _ = inch;
        edge - (ball * ball - seat * seat).max(0.0).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ball_on_the_edge_touches_the_edge() {
        let p = SeatPicture {
            name: "x".into(),
            bore: Diameter::inch(3.9),
            seat: Diameter::inch(3.375),
            ball: Diameter::inch(3.5),
            angle: Angle::deg(30.0),
        };
        let (seat, ball) = (0.5 * 3.375, 0.5 * 3.5);
        let centre = ball_centre(&p, 1.0, 0.0, 1.0, seat, ball);
        let distance = (1.0 - centre).hypot(seat);
        assert!((distance - ball).abs() < 1e-9);
    }
}
