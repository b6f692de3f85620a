//! Enlarged details of the two small offsets, in the wheel's own frame (e_y', z): the drawn length is the reading.

use super::dimensions::level;
use super::labels::{Labels, Rank};
use super::scene::{Anchor, Area, Fill, Item, P, Pen, Scene, Stroke, Text};
use super::{Ink, Picture, Sheet, View};
use kernel::{State, SteeringAxis, Vec3};

/// Enlargements, against the sheet's scale; the greatest that keeps the offset inside two thirds of the circle is taken.
const FACTORS: [f64; 4] = [8.0, 4.0, 2.0, 1.0];

/// One detail.
struct Detail {
    letter: &'static str,
    /// The reading's column.
    column: &'static str,
    name: [&'static str; 2],
    /// The point the offset is measured to, from W: the wheel centre or the contact point.
    to: Vec3,
    /// The axis at the same height, from W.
    axis: Vec3,
    /// The offset, mm, as its reading has it.
    offset: f64,
}

impl Detail {
    /// Where on the front view it is.
    fn place(&self, sheet: &Sheet, state: &State) -> P {
        sheet.project(View::Front, state.position.pose.w + (self.to + self.axis) / 2.0)
    }
}

/// True if the front view shows a place and the small circle round it.
fn in_view(sheet: &Sheet, at: P) -> bool {
    let front = sheet.windows().iter().find(|window| window.view == View::Front);
    front.is_some_and(|front| (0..2).all(|i| (front.min[i] + CALLOUT..=front.max[i] - CALLOUT).contains(&at[i])))
}

/// Radius of the small circle on the front view, px.
const CALLOUT: f64 = 15.0;

/// The greatest of an offset on this axle and on the one laid over, mm: compared axles have one enlargement, whichever lies on top.
fn greatest(picture: &Picture, at: usize, own: &Detail) -> f64 {
    let state = picture.compared.as_ref().map(|compared| compared.now);
    let other = state.and_then(|state| details(state, state.axis.as_ref().ok()?)[at].take());
    other.map_or(own.offset.abs(), |other| own.offset.abs().max(other.offset.abs()))
}

/// The enlargement that shows an offset, mm, at a scale of `scale` px/mm in a circle of `radius` px.
fn factor(offset: f64, scale: f64, radius: f64) -> f64 {
    let fits = |factor: &f64| offset.abs() * factor * scale <= 1.3 * radius;
    FACTORS.into_iter().find(fits).unwrap_or(1.0)
}

/// Keeps the details' places free of other lettering.
pub fn keep_out(sheet: &Sheet, labels: &mut Labels) {
    if let ([window], None) = (sheet.windows(), sheet.places()) {
        // The page's buttons that choose the view stand here.
        let [x, y] = window.min;
        labels.keep_out([x, y, x + 280.0, y + 74.0]);
    }
    for ([x, y], radius) in
        sheet.details().iter().flat_map(|details| details.centres.map(|centre| (centre, details.radius)))
    {
        labels.keep_out([x - radius, y - radius - 18.0, x + radius, y + radius + 36.0]);
    }
}

/// Both details, where the sheet has room for them and shows what they enlarge.
pub fn draw(picture: &Picture, sheet: &Sheet, scene: &mut Scene) {
    let (Some(places), Ok(axis)) = (sheet.details(), &picture.axle.now.axis) else { return };
    let state = picture.axle.now;
    for (at, (detail, centre)) in details(state, axis).into_iter().zip(places.centres).enumerate() {
        // Its length alone, to scale, would tell what a lesson hides.
        let shown = |detail: &Detail| !picture.hides(detail.column) && in_view(sheet, detail.place(sheet, state));
        let Some(detail) = detail.filter(shown) else { continue };
        let mut pen = Pen::default();
        let mut labels = Labels::new([0.0, 0.0], sheet.size);
        let factor = factor(greatest(picture, at, &detail), sheet.scale(), places.radius);
        one(&mut pen, &mut labels, sheet, picture, axis, &detail, (centre, places.radius, factor));
        labels.letter(&mut pen);
        scene.items.append(&mut pen.items);
    }
}

fn details(state: &State, axis: &SteeringAxis) -> [Option<Detail>; 2] {
    let contact = state.attitude.contact;
    let side = state.attitude.side;
    [
        axis.at_hub.map(|q| Detail {
            letter: "X",
            column: "kingpin_offset_wheel_centre_mm",
            name: ["kingpin offset at", "wheel centre"],
            to: Vec3::zeros(),
            axis: q,
            offset: -q.dot(&side),
        }),
        axis.at_road.map(|p| Detail {
            letter: "Y",
            column: "scrub_radius_mm",
            name: ["scrub radius", ""],
            to: contact,
            axis: p,
            offset: (contact - p).dot(&side),
        }),
    ]
}

fn one(
    pen: &mut Pen,
    labels: &mut Labels,
    sheet: &Sheet,
    picture: &Picture,
    axis: &SteeringAxis,
    detail: &Detail,
    (centre, radius, factor): (P, f64, f64),
) {
    let state = picture.axle.now;
    let scale = sheet.scale() * factor;
    let half = detail.offset / 2.0 * scale;
    // Outboard is to the right: the point stands half the offset right of the middle, the axis half of it left.
    let (to, on_axis) = ([centre[0] + half, centre[1]], [centre[0] - half, centre[1]]);
    callout(pen, sheet, state, detail, (centre, radius));
    pen.disc(centre, radius, Some(Fill::solid(Ink::Paper)), None);
    let mut inner = Pen::default();
    if detail.letter == "Y" {
        for i in -8..9 {
            let x = centre[0] + f64::from(i) * 7.0;
            inner.line(&[[x + 7.0, to[1]], [x, to[1] + 8.0]], Stroke::narrow(Ink::Hatch));
        }
        inner.line(&[[centre[0] - radius, to[1]], [centre[0] + radius, to[1]]], Stroke::line(Ink::Ink, 1.8));
    } else {
        let n = state.attitude.spin;
        let slope = -n.z / n.dot(&state.attitude.side).max(0.1);
        inner.line(&[[to[0] - 99.0, to[1] - 99.0 * slope], [to[0] + 99.0, to[1] + 99.0 * slope]], Stroke::centre());
    }
    let lean = axis.screw.k.dot(&state.attitude.side) / axis.screw.k.z.max(1e-3);
    let line = [-2.0, 2.0].map(|k| [on_axis[0] + k * radius * lean, on_axis[1] - k * radius]);
    inner.line(&line, Stroke { opacity: 0.75, ..Stroke::line(Ink::AxisBand, 6.0) });
    inner.line(&line, Stroke { dash: &[22.0, 3.5, 2.5, 3.5], ..Stroke::line(Ink::Ink, 1.7) });
    inner.cross(on_axis);
    inner.disc(to, 2.6, Some(Fill::solid(Ink::Ink)), None);
    let mut inside =
        Labels::new([centre[0] - 0.84 * radius, centre[1] - radius], [centre[0] + 0.84 * radius, centre[1] + radius]);
    level(&mut inner, &mut inside, on_axis, to, centre[1] + 0.47 * radius, &picture.units.length(detail.offset));
    inside.letter(&mut inner);
    pen.items.push(Item::Clip { area: Area::Circle { centre, radius }, items: inner.items });
    pen.disc(centre, radius, None, Some(Stroke::line(Ink::Ink, 1.0)));
    let heading = Text { bold: true, anchor: Anchor::Middle, ..Text::at([centre[0], centre[1] - radius - 6.0], "") };
    labels.put(Rank::Fixed, Text { text: format!("{} {} ×", detail.letter, factor), ..heading });
    for (row, text) in detail.name.iter().enumerate() {
        let at = [centre[0], centre[1] + radius + 16.0 + 16.0 * row as f64];
        labels.put(Rank::Fixed, Text { anchor: Anchor::Middle, ..Text::at(at, text) });
    }
}

/// The small circle on the front view that the detail enlarges, its letter, and a leader.
fn callout(pen: &mut Pen, sheet: &Sheet, state: &State, detail: &Detail, (centre, radius): (P, f64)) {
    let at = detail.place(sheet, state);
    let thin = Stroke::narrow(Ink::Ink2);
    pen.disc(at, CALLOUT, None, Some(thin));
    let along = super::shapes::unit(super::shapes::sub(centre, at));
    let from = |p: P, by: f64| [p[0] + along[0] * by, p[1] + along[1] * by];
    // In one view alone the details stand across the axle from the wheel: letters tie them, a leader would cross everything.
    if sheet.windows().len() > 1 {
        pen.line(&[from(at, CALLOUT), from(centre, -radius)], thin);
    }
    pen.text(Text { bold: true, ..Text::at([at[0] - 24.0, at[1] - 10.0], detail.letter) });
}
