//! Causes: one changed part at a time that might explain everything that was found, the best first.
//!
//! For each cause its amount c, whatever was adjusted a, and the heights h are fitted together, on solved states:
//! ```text
//! χ²(c, a, h) = Σ ((reading(c, a, h) − value)/error)² + Σ (h/height error)²   → least
//! ```
//! What is fitted beside the cause has no expectation, but for the heights: a long arm whose toe was set again since is found as long as it is. No
//! experience of what usually breaks is put in.

use super::fit::{Fit, NoFit, Problem, Unknown};
use super::{Found, Value};
use crate::layout::{Change, Layout, LeftOrRight, Sides};
use crate::vary::{Parameter, is_of_a_part};

/// One part that may differ.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// What differs.
    pub change: Change,
    /// On which side; the whole car's on both.
    pub of: Sides,
    /// What has to be added to the layout to give the values, as nearly as this change alone can, mm or degrees.
    pub amount: f64,
    /// What is then left of the values and heights over their errors: the sum of squares.
    pub chi2: f64,
}

/// Every cause, that with the least χ² first.
#[derive(Clone, Debug)]
pub struct Causes(pub Vec<Cause>);

/// Causes whose χ² are this near can't be told apart: twice the error of the difference that a single value makes between them.
pub const TOLD_APART: f64 = 4.0;

impl Causes {
    /// Every cause there can be of what was found on the car that should be as this layout says, its changes in it.
    pub fn of(found: &Found, layout: &Layout) -> Result<Causes, NoFit> {
        let search = Search::new(found, layout)?;
        Ok(Causes::ranked(search.tried().iter().map(|tried| search.cause(*tried)).collect::<Result<_, _>>()?))
    }

    /// Causes in their order.
    pub fn ranked(mut causes: Vec<Cause>) -> Causes {
        causes.sort_by(|a, b| a.chi2.total_cmp(&b.chi2));
        Causes(causes)
    }

    /// The other causes that the values can't tell from one of these.
    pub fn tied_with(&self, i: usize) -> impl Iterator<Item = &Cause> + '_ {
        let near = move |other: &Cause| (other.chi2 - self.0[i].chi2).abs() <= TOLD_APART;
        self.0.iter().enumerate().filter(move |(j, other)| *j != i && near(other)).map(|(_, other)| other)
    }

    /// The table: `rank,cause,side,amount,unit,chi2,indistinguishable_from`, one row a cause, full precision.
    pub fn table(&self, layout: &Layout) -> String {
        let mut table = String::from("rank,cause,side,amount,unit,chi2,indistinguishable_from\n");
        for (i, cause) in self.0.iter().enumerate() {
            let tied: Vec<String> = self.tied_with(i).map(|other| other.change.name(layout)).collect();
            let (rank, name, side) = (i + 1, cause.change.name(layout), cause.of.key());
            let unit = Parameter::Change(cause.change).unit();
            let (amount, chi2) = (cause.amount + 0.0, cause.chi2);
            table += &format!("{rank},{name},{side},{amount},{unit},{chi2},{}\n", tied.join(";"));
        }
        table
    }
}

/// The search for causes, one after another, so that whoever has little time at once can do it in parts.
pub struct Search {
    whole: Group,
    /// Wheels that share no unknown are fitted each for itself: what is wrong on one changes nothing that is left over on the other.
    wheels: Vec<(LeftOrRight, Group)>,
}

/// Everything that is tried on what was found, each with its side.
pub fn tried(found: &Found, layout: &Layout) -> Vec<(Change, Sides)> {
    let parts = Change::all(layout).into_iter().filter(|change| is_of_a_part(*change));
    parts.flat_map(|change| tried_on(change, found).into_iter().map(move |of| (change, of))).collect()
}

impl Search {
    /// Begins it.
    pub fn new(found: &Found, layout: &Layout) -> Result<Search, NoFit> {
        let whole = Group::new(found.clone(), layout)?;
        let shared = found.adjusted.iter().any(|change| change.of_both());
        let apart = !shared && found.values.iter().all(|value| value.less.is_none());
        let wheels = found.sides().filter(|_| apart).map(|side| Ok((side, Group::new(found.of(side), layout)?)));
        Ok(Search { wheels: wheels.collect::<Result<_, _>>()?, whole })
    }

    /// What is tried.
    pub fn tried(&self) -> Vec<(Change, Sides)> {
        tried(&self.whole.found, &self.whole.layout)
    }

    /// χ² of what was found if nothing is wrong with any part: only with what may have been set since, and the heights.
    pub fn with_nothing(&self) -> f64 {
        self.whole.start.chi2
    }

    /// What one change explains.
    pub fn cause(&self, (change, of): (Change, Sides)) -> Result<Cause, NoFit> {
        let here = |side: LeftOrRight| of == Sides::One(side);
        let group = self.wheels.iter().find(|(side, _)| here(*side)).map_or(&self.whole, |(_, group)| group);
        let others = self.wheels.iter().filter(|(side, _)| matches!(of, Sides::One(_)) && !here(*side));
        let (amount, chi2) = group.explained_by(change, of)?;
        Ok(Cause { change, of, amount, chi2: chi2 + others.map(|(_, group)| group.start.chi2).sum::<f64>() })
    }

    /// The car with a cause and with what may have been set since, as both explain what was found.
    pub fn built(&self, cause: &Cause) -> Result<Layout, NoFit> {
        let (unknowns, fit) = self.whole.fit(Unknown::Change(cause.of, cause.change))?;
        let changes = unknowns.into_iter().zip(fit.amounts);
        Ok(changes.fold(self.whole.layout.clone(), |layout, (unknown, by)| match unknown {
            Unknown::Change(of, change) => Parameter::Change(change).added(&layout, of, by),
            Unknown::Height(..) => layout,
        }))
    }

    pub(super) fn found(&self) -> &Found {
        &self.whole.found
    }

    pub(super) fn layout(&self) -> &Layout {
        &self.whole.layout
    }
}

/// What was found on wheels that are fitted together, and how much of it is left when nothing is wrong with any part.
struct Group {
    layout: Layout,
    found: Found,
    beside: Vec<Unknown>,
    start: Fit,
}

impl Group {
    fn new(found: Found, layout: &Layout) -> Result<Group, NoFit> {
        let beside = beside(&found);
        let start = Problem { layout, found: &found, unknowns: &beside }.fit(vec![0.0; beside.len()])?;
        Ok(Group { layout: layout.clone(), found, beside, start })
    }

    /// The amount of a cause that leaves least, and what it leaves.
    fn explained_by(&self, change: Change, of: Sides) -> Result<(f64, f64), NoFit> {
        let cause = Unknown::Change(of, change);
        let (unknowns, fit) = self.fit(cause)?;
        let at = unknowns.iter().position(|unknown| *unknown == cause);
        Ok((at.map_or(0.0, |at| fit.amounts[at]), fit.chi2))
    }

    /// All unknowns, those beside a cause and the cause, and what they come out as.
    fn fit(&self, cause: Unknown) -> Result<(Vec<Unknown>, Fit), NoFit> {
        if self.beside.contains(&cause) {
            return Ok((self.beside.clone(), self.start.clone()));
        }
        let unknowns = [&self.beside[..], &[cause]].concat();
        let problem = Problem { layout: &self.layout, found: &self.found, unknowns: &unknowns };
        let fit = problem.fit([&self.start.amounts[..], &[0.0]].concat())?;
        Ok((unknowns, fit))
    }
}

/// What is fitted beside every cause: what was adjusted, and the heights where they have an error.
fn beside(found: &Found) -> Vec<Unknown> {
    let adjusted = found
        .adjusted
        .iter()
        .flat_map(|change| tried_on(*change, found).into_iter().map(|of| Unknown::Change(of, *change)));
    let travels = found.values.iter().flat_map(Value::places).map(|at| Unknown::Height(at.side, at.travel));
    let heights = travels.filter(|_| found.height_error > 0.0);
    let mut unknowns = Vec::new();
    for unknown in adjusted.chain(heights) {
        if !unknowns.contains(&unknown) {
            unknowns.push(unknown);
        }
    }
    unknowns
}

/// The sides on which a change is tried: those of which there are values, both for what the whole car has.
fn tried_on(change: Change, found: &Found) -> Vec<Sides> {
    if change.of_both() { vec![Sides::Both] } else { found.sides().map(Sides::One).collect() }
}
