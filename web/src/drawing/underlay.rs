//! A picture laid under a view: where it lies, and how two of its places bring it there.
//!
//! A place in the picture is p, px to the right and down from its upper left corner; a place in the view is q, mm to the right and down from
//! where the car's origin is drawn. Read as complex numbers, a picture that is enlarged, turned and moved, but neither stretched nor mirrored, lies by
//!
//! q = a p + b,
//!
//! where |a| is mm per px and arg a its turn, clockwise on paper. Two places that are known give both: a = (q₂ − q₁)/(p₂ − p₁), b = q₁ − a p₁.
//! A known distance d between two places gives |a| = d/|p₂ − p₁| alone: the turn stays, and so does the middle between the two. Perspective is not taken out.

use super::ink::Ink;
use super::projection::{Sheet, View};
use super::scene::{Area, Item, Pen, Stroke, Text};
use super::shapes::P;
use kernel::Vec3;
use nalgebra::Complex;

/// Nearer to each other than this, px of the picture or mm of the car, two places say nothing of a turn: a hand hits a place to a px or two.
const APART: f64 = 10.0;

/// Radius of a mark's ring, and half the length of its cross, px of the paper.
const RING: f64 = 9.0;
const CROSS: f64 = 15.0;

/// How strongly a picture shows at first.
const OPACITY: f64 = 0.6;

fn complex([right, down]: P) -> Complex<f64> {
    Complex::new(right, down)
}

fn place(z: Complex<f64>) -> P {
    [z.re, z.im]
}

/// A point of the car as a view shows it: mm to the right and down from the car's origin.
pub fn seen(view: View, point: Vec3) -> P {
    match view {
        View::Front => [point.y, -point.z],
        View::Side => [-point.x, -point.z],
        View::Plan | View::Pictorial => [point.y, point.x],
    }
}

/// How a picture lies in a view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laid {
    a: Complex<f64>,
    b: Complex<f64>,
}

/// The same in numbers that a reader can type.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Where the picture's middle is, mm to the right and up from the car's origin, as the view shows it.
    pub right: f64,
    /// See `right`.
    pub up: f64,
    /// How far it is turned, degrees, clockwise.
    pub turn: f64,
    /// How wide it is, mm.
    pub width: f64,
}

impl Laid {
    /// By two places `p` in the picture, px, and where they are in the view, mm; `None` where two are too near each other.
    pub fn by_pairs(p: [P; 2], q: [P; 2]) -> Option<Laid> {
        let ([p1, p2], [q1, q2]) = (p.map(complex), q.map(complex));
        if (p2 - p1).norm() < APART || (q2 - q1).norm() < APART {
            return None;
        }
        let a = (q2 - q1) / (p2 - p1);
        Some(Laid { a, b: q1 - a * p1 })
    }

    /// The same picture with two of its places so many mm from each other; `None` where they are too near.
    pub fn by_distance(self, p: [P; 2], distance: f64) -> Option<Laid> {
        let [p1, p2] = p.map(complex);
        let px = (p2 - p1).norm();
        if px < APART || !distance.is_finite() || distance < APART {
            return None;
        }
        let middle = (p1 + p2) / 2.0;
        let a = self.a / self.a.norm() * (distance / px);
        Some(Laid { a, b: self.a * middle + self.b - a * middle })
    }

    /// A picture of a size, px, by its numbers.
    pub fn placed(size: P, placed: Placed) -> Laid {
        let a = Complex::from_polar(placed.width / size[0], placed.turn.to_radians());
        Laid { a, b: Complex::new(placed.right, -placed.up) - a * complex(size) / 2.0 }
    }

    /// Its numbers.
    pub fn numbers(self, size: P) -> Placed {
        let [right, down] = self.in_view(size.map(|px| px / 2.0));
        Placed { right, up: -down, turn: self.a.arg().to_degrees(), width: self.a.norm() * size[0] }
    }

    /// The same picture, moved by so many mm to the right and down.
    pub fn moved(self, by: P) -> Laid {
        Laid { b: self.b + complex(by), ..self }
    }

    /// Where a place in the picture lies in the view.
    pub fn in_view(self, p: P) -> P {
        place(self.a * complex(p) + self.b)
    }

    /// Which place in the picture lies there in the view.
    pub fn in_picture(self, q: P) -> P {
        place((complex(q) - self.b) / self.a)
    }
}

/// Why a picture can't be laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// Two places have to be marked in it first.
    Unmarked,
    /// The two, or what they are laid on, are too near each other.
    Near,
}

/// A picture under a view, without its pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Underlay {
    /// Its width and height, px.
    pub size: P,
    /// The view it lies under.
    pub view: View,
    /// How it lies.
    pub laid: Laid,
    /// How strongly it shows, 0 to 1.
    pub opacity: f64,
    /// True if hands on the drawing leave it where it is.
    pub locked: bool,
    /// The places A and B that are marked in it, px.
    pub marks: [Option<P>; 2],
    /// The mark that the next touch of the picture puts.
    pub marking: Option<usize>,
}

impl Underlay {
    /// A picture of a size, px, in the middle of what shows the car from there, as wide as that shows.
    pub fn new(size: P, view: View, sheet: &Sheet) -> Underlay {
        let [min, max] = sheet.area(view).unwrap_or([[0.0; 2], sheet.size]);
        let middle = [f64::midpoint(min[0], max[0]), f64::midpoint(min[1], max[1])];
        let [right, down] = on_car(sheet, view, middle);
        let width = f64::min(max[0] - min[0], (max[1] - min[1]) * size[0] / size[1]) / sheet.scale();
        let laid = Laid::placed(size, Placed { right, up: -down, turn: 0.0, width });
        Underlay { size, view, laid, opacity: OPACITY, locked: false, marks: [None; 2], marking: None }
    }

    /// Where the picture is on paper: px of it (x, y) lie at (m₀ x + m₂ y + m₄, m₁ x + m₃ y + m₅).
    pub fn matrix(&self, sheet: &Sheet) -> [f64; 6] {
        let (a, scale) = (self.laid.a * sheet.scale(), sheet.scale());
        let [x, y] = sheet.project(self.view, Vec3::zeros());
        [a.re, a.im, -a.im, a.re, x + scale * self.laid.b.re, y + scale * self.laid.b.im]
    }

    /// The place in the picture that lies at a place on paper, if the picture shows there.
    pub fn at(&self, sheet: &Sheet, paper: P) -> Option<P> {
        let [min, max] = sheet.area(self.view)?;
        let p = self.laid.in_picture(on_car(sheet, self.view, paper));
        let within = (0..2).all(|i| (min[i]..=max[i]).contains(&paper[i]) && (0.0..=self.size[i]).contains(&p[i]));
        within.then_some(p)
    }

    /// True if a hand that comes down there means the picture, where nothing of the drawing is to be taken.
    pub fn is_loose(&self, sheet: &Sheet, paper: P) -> bool {
        !self.locked && self.at(sheet, paper).is_some()
    }

    /// Puts the mark that is to be put.
    pub fn put(&mut self, sheet: &Sheet, paper: P) {
        if let (Some(which), Some(p)) = (self.marking, self.at(sheet, paper)) {
            self.marks[which] = Some(p);
        }
    }

    /// The mark is where it should be: B comes after A, unless it is there already.
    pub fn marked(&mut self) {
        self.marking = self.marking.and_then(|which| (which == 0 && self.marks[1].is_none()).then_some(1));
    }

    /// Both marks, px.
    fn both(&self) -> Result<[P; 2], Unfit> {
        let [Some(a), Some(b)] = self.marks else { return Err(Unfit::Unmarked) };
        Ok([a, b])
    }

    /// Lays the marks on two points of the car, as far as the view shows them, and locks the picture there.
    pub fn lay(&mut self, points: [Vec3; 2]) -> Result<(), Unfit> {
        self.laid = Laid::by_pairs(self.both()?, points.map(|point| seen(self.view, point))).ok_or(Unfit::Near)?;
        self.locked = true;
        Ok(())
    }

    /// Makes the marks so many mm distant from each other.
    pub fn stretch(&mut self, distance: f64) -> Result<(), Unfit> {
        self.laid = self.laid.by_distance(self.both()?, distance).ok_or(Unfit::Near)?;
        Ok(())
    }

    /// How far the marks are from each other, mm.
    pub fn distance(&self) -> Option<f64> {
        let [a, b] = self.both().ok()?.map(|p| self.laid.in_view(p));
        Some(f64::hypot(b[0] - a[0], b[1] - a[1]))
    }

    /// The marks, to be drawn over all.
    pub fn drawn_marks(&self, sheet: &Sheet) -> Option<Item> {
        let [min, max] = sheet.area(self.view)?;
        let origin = sheet.project(self.view, Vec3::zeros());
        let mut pen = Pen::default();
        for (name, mark) in ["A", "B"].iter().zip(self.marks) {
            let Some(mark) = mark else { continue };
            let q = self.laid.in_view(mark);
            let [x, y] = std::array::from_fn(|i| origin[i] + sheet.scale() * q[i]);
            for stroke in [Stroke::line(Ink::Paper, 3.5), Stroke::line(Ink::Fault, 1.2)] {
                pen.disc([x, y], RING, None, Some(stroke));
                pen.line(&[[x - CROSS, y], [x + CROSS, y]], stroke);
                pen.line(&[[x, y - CROSS], [x, y + CROSS]], stroke);
            }
            let letter =
                Text { bold: true, size: 14.0, ink: Ink::Fault, halo: true, ..Text::at([x + 9.0, y - 9.0], name) };
            pen.text(letter);
        }
        Some(Item::Clip { area: Area::Rect { min, max }, items: pen.items })
    }
}

/// What of the car a view shows at a place on paper: mm to the right and down from the car's origin.
fn on_car(sheet: &Sheet, view: View, paper: P) -> P {
    let origin = sheet.project(view, Vec3::zeros());
    std::array::from_fn(|i| (paper[i] - origin[i]) / sheet.scale())
}
