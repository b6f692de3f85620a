//! What is drawn of an axle.

use crate::study::Solved;
use kernel::{Layout, LeftOrRight, Linkage, PointId, State, Vec3};

/// One axle with what was solved for it.
#[derive(Clone, Copy)]
pub struct Axle<'a> {
    /// The joints at rest.
    pub layout: &'a Layout,
    /// Its equations.
    pub linkage: &'a Linkage,
    /// The state at rest.
    pub rest: &'a State,
    /// The state to draw: the present one, or the last good one.
    pub now: &'a State,
}

impl Axle<'_> {
    /// Of what is solved.
    pub fn of(solved: &Solved) -> Axle<'_> {
        Axle { layout: solved.layout(), linkage: solved.linkage(), rest: &solved.rest, now: &solved.now }
    }

    /// The right wheel, as a left one, where both are shown.
    pub fn right_of(solved: &Solved) -> Option<Axle<'_>> {
        let [now, rest] = solved.whole.as_ref()?.each_ref().map(|whole| &whole.axle.sides[1].state);
        let (layout, linkage) = (solved.axle.built_of(LeftOrRight::Right), &solved.axle.linkages()[1]);
        Some(Axle { layout, linkage, rest, now })
    }

    /// Where a point of the layout is at a state, mm.
    pub(super) fn place(&self, id: PointId, state: &State) -> Option<Vec3> {
        let position = &state.position;
        Some(self.linkage.place(&position.pose, position.rack, id, self.layout.point(id)?))
    }

    /// The height of the road under the wheel, mm.
    pub(super) fn road(&self, state: &State) -> f64 {
        state.position.pose.w.z + state.attitude.contact.z
    }
}
