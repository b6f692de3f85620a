//! The goal that is searched for: what its readings are now, and an answer's axle where the car is shown.

use super::App;
use crate::document::Document;
use crate::document::goal::{Aim, Ends, Goal, Wanted};
use crate::study::Solved;
use crate::study::condition::comes_to;
use kernel::space::{Piece, Pieces};
use kernel::vary::{Outcome, read};
use kernel::{Layout, PointId, Vec3};
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

/// What has been asked of the present state.
#[derive(Default)]
pub(super) struct AskedGoal {
    aimed: OnceCell<Vec<Vec<Option<f64>>>>,
    kept: OnceCell<Vec<Option<Vec<f64>>>>,
    pairs: OnceCell<Vec<[Piece; 2]>>,
    followed: RefCell<Vec<Followed>>,
    previewed: RefCell<Option<(Layout, Option<Rc<Solved>>)>>,
}

/// A reading of a layout along the line of an aim.
type Followed = (Layout, Aim, Rc<Vec<(f64, f64)>>);

/// Steps from one end of a curve to the other: half of a curve's of its own, for it is only to be compared with a line.
const STEPS: u32 = 24;

impl App {
    /// The goal; an empty one where none is kept.
    pub fn goal(&self) -> Goal {
        self.document.papers.goal.as_deref().cloned().unwrap_or_default()
    }

    /// What each aim's reading is now at each of its places, on the wheel that is asked about; nothing where the axle can't be at one of them.
    pub fn aimed(&self) -> &[Vec<Option<f64>>] {
        let layout = &self.document.layout;
        let now = |aim: &Aim| {
            let Some(quantity) = aim.quantity() else { return Vec::new() };
            let side = self.goal().side();
            let place = |[travel, rack]: [f64; 2]| Outcome { quantity, side, travel, rack };
            read(layout, &aim.places().into_iter().map(place).collect::<Vec<_>>()).unwrap_or_default()
        };
        self.asked.goal.aimed.get_or_init(|| self.goal().aims.iter().map(now).collect())
    }

    /// What each condition comes to now, place by place.
    pub fn kept(&self) -> &[Option<Vec<f64>>] {
        self.asked.goal.kept.get_or_init(|| {
            let goal = self.goal();
            goal.conditions.iter().map(|one| comes_to(one, &goal, &self.document.layout)).collect()
        })
    }

    /// The pairs of pieces between which a gap can be kept.
    pub fn gaps_to_keep(&self) -> &[[Piece; 2]] {
        let pairs = || Pieces::of(&self.study.good.axle, self.goal().side()).pairs().to_vec();
        self.asked.goal.pairs.get_or_init(pairs)
    }

    /// The reading of an aim with a line, from one end of travel or rack to the other, on a layout: where it has it.
    pub fn followed(&self, layout: &Layout, aim: &Aim) -> Rc<Vec<(f64, f64)>> {
        let mut followed = self.asked.goal.followed.borrow_mut();
        if let Some((.., points)) = followed.iter().find(|(of, same, _)| of == layout && same == aim) {
            return points.clone();
        }
        let points = Rc::new(self.follow(layout, aim));
        followed.push((layout.clone(), aim.clone(), points.clone()));
        points
    }

    fn follow(&self, layout: &Layout, aim: &Aim) -> Vec<(f64, f64)> {
        let (Some(quantity), Wanted::Line(line)) = (aim.quantity(), &aim.wanted) else { return Vec::new() };
        let (side, reach) = (self.goal().side(), self.reach_of(line.rack));
        let outcome = |x: f64| {
            let [travel, rack] =
                if line.rack { [aim.travel.first().copied().unwrap_or_default(), x] } else { [x, aim.rack] };
            Outcome { quantity, side, travel, rack }
        };
        let places: Vec<f64> =
            (0..=STEPS).map(|step| reach * (2.0 * f64::from(step) / f64::from(STEPS) - 1.0)).collect();
        let outcomes: Vec<Outcome> = places.iter().map(|x| outcome(*x)).collect();
        // Where it can't get to one of them, it is asked for each alone.
        let alone = || outcomes.iter().map(|one| read(layout, &[*one]).ok()?.pop()?).collect();
        let values: Vec<Option<f64>> = read(layout, &outcomes).unwrap_or_else(|_| alone());
        places.into_iter().zip(values).filter_map(|(x, value)| Some((x, value?))).collect()
    }

    /// How far a line can reach each way, mm: as far as curves over travel, or the rack.
    pub fn reach_of(&self, rack: bool) -> f64 {
        if rack { self.document.rack_travel() } else { self.study.good.reach }
    }

    /// Where ends of the box of a joint are on the drawing, mm: the box goes with its joint from where that is at rest.
    pub fn end_of_box(&self, point: PointId, ends: Ends) -> Option<Vec3> {
        let at = self.document.layout.point(point)?;
        Some(self.goal().end_of_box(point, at, ends) + self.moved_since_rest(point)?)
    }

    /// The goal with ends of a joint's box dragged to a place on the drawing, mm.
    pub(super) fn with_box(&self, point: PointId, ends: Ends, to: Vec3) -> Goal {
        let mut goal = self.goal();
        goal.drag_box(point, ends, to - self.moved_since_rest(point).unwrap_or_default());
        goal
    }

    /// What keys hold of the box of the joint in hand, in words.
    pub fn spoken_bound(&self) -> Option<String> {
        let (point, ends) = (self.selected?, self.bound?);
        let (ranges, units) = (self.goal().box_of(point), self.document.units);
        let told = (0..3).filter_map(|axis| {
            let (range, end) = (ranges[axis]?, ends[axis]?.min(1));
            Some(format!("{} {} {}", ["x", "y", "z"][axis], ["from", "to"][end], units.length(range[end])))
        });
        let told: Vec<String> = told.collect();
        Some(format!("Box of the {}: {} {}", point.name(), told.join(", "), units.length_name()))
    }

    fn moved_since_rest(&self, point: PointId) -> Option<Vec3> {
        Some(self.study.good.place(point)? - self.document.layout.point(point)?)
    }

    /// The end of the box of the joint in hand that keys take after another one in a view of two axes; none behind the last.
    pub fn next_end(&self, axes: [usize; 2]) -> Option<Ends> {
        let all = self.goal().ends_in(self.selected?, axes);
        let next = self.bound.and_then(|now| all.iter().position(|ends| *ends == now)).map_or(0, |at| at + 1);
        all.get(next).copied()
    }

    /// Another axle in this one's place, to be drawn over it; `None` where it can't be there.
    pub fn previewed(&self, layout: &Layout) -> Option<Rc<Solved>> {
        let mut previewed = self.asked.goal.previewed.borrow_mut();
        if let Some((_, solved)) = previewed.as_ref().filter(|(of, _)| of == layout) {
            return solved.clone();
        }
        let document = Document { layout: layout.clone(), ..self.document.clone() };
        let solved = Solved::new(&document, None).ok().map(Rc::new);
        *previewed = Some((layout.clone(), solved.clone()));
        solved
    }
}
