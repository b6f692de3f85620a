//! What gives way of the axle shown under loads.

use super::loaded::{load, setting};
use super::solved::Solved;
use crate::document::{Case, Document};
use kernel::{Bushes, Deflection, LeftOrRight, LoadCase, State, UnderLoad, Wrench, case_wrenches};

/// How everything moves that gives way under the load shown.
pub struct Deflected {
    /// Of the left and the right wheel, each as a left one.
    pub moves: [Deflection; 2],
}

/// Changes of the wheel shown against the rigid axle, under a load.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// What the load is called.
    pub name: &'static str,
    /// What changes; `None` where the vehicle can't have the load or guides and springs don't hold a wheel.
    pub change: Option<UnderLoad>,
}

/// An axle that gives way, in its position.
struct Giving<'a> {
    solved: &'a Solved,
    bushes: Bushes,
    left: State,
    right: State,
}

impl<'a> Giving<'a> {
    /// `None` for a rigid axle, and where the other wheel can't get there.
    fn of(solved: &'a Solved) -> Option<Giving<'a>> {
        let bushes = Bushes::of(&solved.axle)?;
        let [left, right] = LeftOrRight::BOTH.map(|side| solved.wheel(side));
        Some(Giving { solved, bushes, left: left?, right: right? })
    }

    fn wrenches(&self, document: &Document, case: Case) -> Option<[Wrench; 2]> {
        let states = [&self.left, &self.right];
        match case {
            Case::None => None,
            Case::Of(at) => case_wrenches(LoadCase::all().get(at)?, &setting(self.solved), states).ok(),
            // On either wheel alike.
            Case::Own => {
                let own = load(self.solved, document)?;
                Some(states.map(|state| own.wrench(state)))
            }
        }
    }

    fn under(&self, wrenches: &[Wrench; 2]) -> Option<UnderLoad> {
        let both = UnderLoad::wrenches(&self.bushes, &self.solved.axle, [&self.left, &self.right], wrenches)?;
        Some(both[self.solved.axle.shown().index()])
    }
}

/// How everything moves under the load shown; `None` for a rigid axle, and without a load.
pub fn deflected(solved: &Solved, document: &Document) -> Option<Deflected> {
    let case = document.loads.case;
    let giving = Giving::of(solved).filter(|_| case != Case::None)?;
    let wrenches = giving.wrenches(document, case)?;
    let moves = Deflection::wrenches(&giving.bushes, &solved.axle, [&giving.left, &giving.right], &wrenches)?;
    Some(Deflected { moves })
}

/// Every load case and, where it is shown, the reader's own load; empty for a rigid axle.
pub fn given(solved: &Solved, document: &Document) -> Vec<Given> {
    let Some(giving) = Giving::of(solved) else { return Vec::new() };
    let own = (document.loads.case == Case::Own).then_some(Case::Own);
    let cases = (0..LoadCase::all().len()).map(Case::Of).chain(own);
    cases
        .map(|case| {
            let change = giving.wrenches(document, case).and_then(|wrenches| giving.under(&wrenches));
            Given { name: case.name(), change }
        })
        .collect()
}
