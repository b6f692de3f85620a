//! What is kept of a document, solved: the last state that closed, and what does not close now.

use super::giving::{self, Deflected};
use super::loaded::Loaded;
use super::solved::{Solved, Trouble};
use crate::document::Document;
use kernel::{Built, Demand, PointId, Vec3, linkage_of, solve};
use nalgebra::Matrix3;

/// Newton steps that bring a joint under the pointer; two or three are usual.
const MOST_CORRECTIONS: usize = 8;

/// A joint this near the pointer is under it, mm: less than the hundredth that is kept.
const CLOSE: f64 = 0.002;

/// Step of the differences that this takes, mm: far above the solver's noise, far below any curvature.
const STEP: f64 = 1e-3;

/// A document, solved.
pub struct Study {
    /// The last layout and position that could be assembled.
    pub good: Solved,
    /// What does not close now, if `good` is not the present document.
    pub trouble: Option<Trouble>,
    /// The axle laid over it, in the same position; `None` without one, or where it can't get there.
    pub compared: Option<Box<Solved>>,
    /// What the good one carries, if a load is shown.
    pub loaded: Option<Loaded>,
    /// How it gives way then, if it does.
    pub deflected: Option<Deflected>,
}

/// The compared axle as far from where its car stands as the document's and, as far as its stroke goes, at the document's rack.
pub fn laid_over(document: &Document, held: Option<f64>) -> Option<Box<Solved>> {
    let layout = document.compared.clone()?;
    let mut there = Document { compared: None, ..document.clone() };
    there.stand_in(layout);
    Solved::new(&there, held).ok().map(Box::new)
}

impl Study {
    /// The study of a document; if it can't be assembled, of another one that can, with the trouble said.
    pub fn new(document: &Document, instead: impl FnOnce() -> Document) -> Study {
        match Solved::new(document, None) {
            Ok(good) => Study::of(good, document, None),
            Err(trouble) => {
                let good = Solved::new(&instead(), None).unwrap_or_else(|trouble| {
                    // The embedded demos are tested to solve; a build in which one does not must not start.
                    panic!("what stands in does not solve: {}", trouble.sentence)
                });
                Study { good, trouble: Some(trouble), compared: None, loaded: None, deflected: None }
            }
        }
    }

    /// With what closes goes what is laid over it and what it carries.
    fn of(good: Solved, document: &Document, held: Option<f64>) -> Study {
        let (loaded, deflected) = (Loaded::of(&good, document), giving::deflected(&good, document));
        Study { compared: laid_over(document, held), loaded, deflected, good, trouble: None }
    }

    /// Solves a changed document. If it does not close, what closed last stays. `moved` is the joint that changed, if one did;
    /// `held` is how far the curves must reach at least under a hand that holds something.
    pub fn update(&mut self, document: &Document, moved: Option<PointId>, held: Option<f64>) {
        match Solved::new(document, held) {
            Ok(good) => *self = Study::of(good, document, held),
            Err(trouble) => {
                let joint = moved.and_then(|id| {
                    let at_rest = document.layout.point(id)?;
                    Some((id, self.shown(id, at_rest)?)).filter(|(_, at)| at.iter().all(|x| x.is_finite()))
                });
                self.trouble = Some(Trouble { joint, ..trouble });
            }
        }
    }

    /// The hand lets go.
    pub fn let_go(&mut self) {
        self.good.let_go();
        self.compared.iter_mut().for_each(|compared| compared.let_go());
    }

    /// Where the drawing shows a point with these rest coordinates, in the pose that closed last.
    fn shown(&self, id: PointId, at_rest: Vec3) -> Option<Vec3> {
        let (linkage, now) = (self.good.linkage(), &self.good.now);
        match id {
            // The foot follows its member; near enough to what it did at its old place.
            PointId::SpringFoot => Some(at_rest - self.good.layout().point(id)? + self.good.place(id)?),
            _ => {
                let drawn = self.good.layout().point(id)? + (at_rest - self.good.axle.layout().point(id)?);
                Some(linkage.place(&now.position.pose, now.position.rack, id, drawn))
            }
        }
    }

    /// The rest coordinates that bring a point to `target` on the drawing, in the document's position. A joint on the
    /// carrier changes its member's length, so the pose answers: Newton's method on the three coordinates.
    /// Where the linkage can't follow, the pose that closed last stands in.
    pub fn rest_point(&self, document: &Document, id: PointId, target: Vec3) -> Option<Vec3> {
        let start = document.layout.point(id)?;
        let movement = target - self.shown(id, start)?;
        let turned = self.good.now.position.pose.r.inverse() * movement;
        let guess = start + if id.on_carrier() { turned } else { movement };
        let mut at_rest = guess;
        for _ in 0..MOST_CORRECTIONS {
            let Some(now) = self.place_if(document, id, at_rest) else { return Some(guess) };
            let miss = target - now;
            if miss.norm() < CLOSE {
                break;
            }
            let column =
                |axis: usize| Some((self.place_if(document, id, at_rest + Vec3::ith(axis, STEP))? - now) / STEP);
            let [Some(x), Some(y), Some(z)] = [0, 1, 2].map(column) else { return Some(guess) };
            at_rest += Matrix3::from_columns(&[x, y, z]).lu().solve(&miss)?;
        }
        Some(at_rest)
    }

    /// The left wheel's travel; in roll, the one it had when the axle closed last.
    fn left_travel(&self, document: &Document) -> f64 {
        if document.whole && document.roll != 0.0 { self.good.now.travel } else { document.travel }
    }

    /// Where a point would be if its rest coordinates were these.
    fn place_if(&self, document: &Document, id: PointId, at_rest: Vec3) -> Option<Vec3> {
        let mut layout = document.layout.clone();
        *layout.point_mut(id)? = at_rest;
        let linkage = linkage_of(&layout, self.good.axle.shown()).ok()?;
        let solved = solve(&linkage, Demand::new(self.left_travel(document), document.rack), &self.good.now).ok()?;
        let drawn = Built::of(&layout, self.good.axle.shown()).layout(&layout).point(id)?;
        Some(linkage.place(&solved.position.pose, solved.position.rack, id, drawn))
    }
}
