//! Balls on their seats, all at one true scale: bore, cone at its own angle, seat, ball, and the
//! three sizes that decide.

use quantity::{Angle, Diameter, Length, Quantity, System};

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
    /// Length of the seat's bore.
    pub land: Length,
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
/// Room beside a picture for the wall, and below it for the words.
const ROOM: (f64, f64) = (20.0, 42.0);
/// Thickness of wall that is drawn beside the bore, in inches.
const WALL: f64 = 0.3;

impl Scale {
    /// The largest usual scale at which all pictures fit a sheet of the size given.
    pub fn fitting(pictures: &[SeatPicture], size: (f64, f64), columns: usize) -> Self {
        let frame = Frame::round(pictures);
        let rows = pictures.len().div_ceil(columns.max(1)).max(1) as f64;
        let fits = |points: f64| {
            let cell = frame.cell(Scale(points));
            cell.0 * columns as f64 <= size.0 && cell.1 * rows + 12.0 <= size.1
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

impl SeatPicture {
    /// Height of the ball's centre above the edge between cone and seat, in inches: the ball is
    /// tangent to the cone, or rests on that edge where the cone is too steep for it.
    fn centre(&self) -> f64 {
        let (seat, ball) = (0.5 * self.seat.in_inch(), 0.5 * self.ball.in_inch());
        let beta = self.angle.si();
        let touch = ball * beta.cos();
        if touch > seat && beta.tan() > 1e-6 {
            // The touching circle has radius r cos(beta); the centre stands r sin(beta) above it.
            (touch - seat) / beta.tan() + ball * beta.sin()
        } else {
            (ball * ball - seat * seat).max(0.0).sqrt()
        }
    }

    /// Radius of the wall at a height above the edge.
    fn wall(&self, height: f64) -> f64 {
        let cone = 0.5 * self.seat.in_inch() + height * self.angle.si().tan();
        cone.min(0.5 * self.bore.in_inch())
    }
}

/// What every picture of a sheet shows, in inches: half its width, and heights over the edge.
#[derive(Debug, Clone, Copy)]
struct Frame {
    half: f64,
    top: f64,
    bottom: f64,
}

impl Frame {
    fn round(pictures: &[SeatPicture]) -> Self {
        let most = |of: fn(&SeatPicture) -> f64| pictures.iter().map(of).fold(0.1, f64::max);
        Self {
            half: most(|p| 0.5 * p.bore.in_inch()) + WALL,
            top: most(|p| p.centre() + 0.5 * p.ball.in_inch()) + 0.15,
            bottom: most(|p| p.land.in_inch()) + 0.25,
        }
    }

    fn cell(&self, scale: Scale) -> (f64, f64) {
        (2.0 * self.half * scale.0 + ROOM.0, (self.top + self.bottom) * scale.0 + ROOM.1)
    }
}

/// A sheet of pictures in rows, all at the same scale.
pub fn seats(pictures: &[SeatPicture], scale: Scale, columns: usize, width: f64, system: System) -> String {
    let frame = Frame::round(pictures);
    let columns = columns.max(1);
    let rows = pictures.len().div_ceil(columns).max(1);
    let height = frame.cell(scale).1;
    let mut svg = Svg::new(width, height * rows as f64 + 12.0);
    for (i, picture) in pictures.iter().enumerate() {
        let middle = ((i % columns) as f64 + 0.5) * width / columns as f64;
        let top = (i / columns) as f64 * height + 2.0;
        Place { frame, scale: scale.0, middle, top }.draw(&mut svg, picture, system);
    }
    let foot = format!(
        "All at one scale, {}, cones at their own angle. Flow is downwards; the toe is below.",
        scale.words()
    );
    svg.text((2.0, svg.height() - 3.0), &foot, Letters::plain(7.0, Anchor::Start), ink::BLACK);
    svg.finish()
}

struct Place {
    frame: Frame,
    scale: f64,
    middle: f64,
    top: f64,
}

impl Place {
    fn at(&self, radius: f64, height: f64) -> (f64, f64) {
        (self.middle + radius * self.scale, self.top + (self.frame.top - height) * self.scale)
    }

    fn draw(&self, svg: &mut Svg, p: &SeatPicture, system: System) {
        let (bore, seat) = (0.5 * p.bore.in_inch(), 0.5 * p.seat.in_inch());
        let (outer, land) = (bore + WALL, -p.land.in_inch());
        let meets = if p.angle.si().tan() > 1e-6 { (bore - seat) / p.angle.si().tan() } else { 0.0 };
        for side in [-1.0, 1.0] {
            let at = |radius: f64, height: f64| self.at(side * radius, height);
            let mut shape = vec![at(outer, self.frame.top), at(p.wall(self.frame.top), self.frame.top)];
            if meets < self.frame.top {
                shape.push(at(bore, meets));
            }
            shape.extend([at(seat, 0.0), at(seat, land), at(bore, land), at(bore, -self.frame.bottom)]);
            shape.push(at(outer, -self.frame.bottom));
            svg.polygon(&shape, Pen::outlined(ink::STEEL, ink::BLACK, 0.4));
        }
        let ball = 0.5 * p.ball.in_inch() * self.scale;
        svg.circle(self.at(0.0, p.centre()), ball, Pen::outlined("#f3d9a4", ink::BLACK, 0.7));
        self.words(svg, p, system);
    }

    fn words(&self, svg: &mut Svg, p: &SeatPicture, system: System) {
        let base = self.at(0.0, -self.frame.bottom).1;
        let over = Diameter::inch(p.ball.in_inch() - p.seat.in_inch());
        let lines = [
            format!("ball {}", p.ball.text(system)),
            format!("seat {}", p.seat.text(system)),
            format!("overlap {}", over.text(system)),
        ];
        svg.text((self.middle, base + 9.0), &p.name, Letters::bold(7.0, Anchor::Middle), ink::BLACK);
        for (i, line) in lines.iter().enumerate() {
            let at = (self.middle, base + 17.0 + 7.6 * i as f64);
            svg.text(at, line, Letters::plain(7.0, Anchor::Middle), ink::BLACK);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(angle: f64) -> SeatPicture {
        SeatPicture {
            name: "x".into(),
            bore: Diameter::inch(3.9),
            seat: Diameter::inch(3.375),
            land: Length::inch(2.0),
            ball: Diameter::inch(3.5),
            angle: Angle::deg(angle),
        }
    }

    #[test]
    fn a_ball_on_the_edge_touches_the_edge() {
        let p = picture(30.0);
        let (seat, ball) = (0.5 * 3.375, 0.5 * 3.5);
        assert!((p.centre().hypot(seat) - ball).abs() < 1e-9);
    }

    #[test]
    fn a_ball_on_the_cone_is_tangent_to_it() {
        let p = picture(10.0);
        let (ball, beta) = (0.5 * 3.5, 10f64.to_radians());
        assert!(ball * beta.cos() > 0.5 * 3.375);
        // Distance from the centre, on the axis, to the cone's line.
        let apex = -0.5 * 3.375 / beta.tan();
        assert!(((p.centre() - apex) * beta.sin() - ball).abs() < 1e-9);
    }

    #[test]
    fn a_sheet_holds_what_it_was_fitted_to() {
        let pictures = vec![picture(10.0); 30];
        let scale = Scale::fitting(&pictures, (532.0, 640.0), 6);
        let cell = Frame::round(&pictures).cell(scale);
        assert!(cell.0 * 6.0 <= 532.0 && cell.1 * 5.0 + 12.0 <= 640.0);
        assert_eq!(seats(&pictures, scale, 6, 532.0, System::Field).matches("<circle").count(), 30);
    }
}
