//! Causes: one changed part at a time that might explain everything that was found, the best first.
//!
//! For each cause its amount c, whatever was adjusted a, and the heights h are fitted together, on solved states:
//! ```text
//! χ²(c, a, h) = Σ ((reading(c, a, h) − value)/error)² + Σ (h/height error)²   → least
//! ```
//! What is fitted beside the cause has no expectation, but for the heights: a long arm whose toe was set again since is found as long as it is. No
//! experience of what usually breaks is put in.

use super::Found;
use super::fit::{Fit, NoFit, Problem, Unknown};
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
        let whole = Group::new(found.clone(), layout)?;
        // Wheels that share no unknown are fitted each for itself: what is wrong on one changes nothing that is left over on the other.
        let apart = !found.adjusted.iter().any(|change| change.of_both());
        let wheels = found.sides().filter(|_| apart).map(|side| Ok((side, Group::new(found.of(side), layout)?)));
        let wheels: Vec<(LeftOrRight, Group)> = wheels.collect::<Result<_, _>>()?;
        let mut causes = Vec::new();
        for change in Change::all(layout).into_iter().filter(|change| is_of_a_part(*change)) {
            for of in tried_on(change, found) {
                let here = |side: LeftOrRight| of == Sides::One(side);
                let group = wheels.iter().find(|(side, _)| here(*side)).map_or(&whole, |(_, group)| group);
                let others = wheels.iter().filter(|(side, _)| matches!(of, Sides::One(_)) && !here(*side));
                let (amount, chi2) = group.explained_by(change, of)?;
                causes.push(Cause {
                    change,
                    of,
                    amount,
                    chi2: chi2 + others.map(|(_, group)| group.start.chi2).sum::<f64>(),
                });
            }
        }
        causes.sort_by(|a, b| a.chi2.total_cmp(&b.chi2));
        Ok(Causes(causes))
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

/// What was found on wheels that are fitted together, and how much of it is left when nothing is wrong with any part.
struct Group<'a> {
    layout: &'a Layout,
    found: Found,
    beside: Vec<Unknown>,
    start: Fit,
}

impl Group<'_> {
    fn new(found: Found, layout: &Layout) -> Result<Group<'_>, NoFit> {
        let beside = beside(&found);
        let start = Problem { layout, found: &found, unknowns: &beside }.fit(vec![0.0; beside.len()])?;
        Ok(Group { layout, found, beside, start })
    }

    /// The amount of a cause that leaves least, and what it leaves.
    fn explained_by(&self, change: Change, of: Sides) -> Result<(f64, f64), NoFit> {
        let (cause, amounts) = (Unknown::Change(of, change), &self.start.amounts);
        if let Some(at) = self.beside.iter().position(|unknown| *unknown == cause) {
            return Ok((amounts[at], self.start.chi2));
        }
        let unknowns = [&self.beside[..], &[cause]].concat();
        let problem = Problem { layout: self.layout, found: &self.found, unknowns: &unknowns };
        let fit = problem.fit([&amounts[..], &[0.0]].concat())?;
        Ok((fit.amounts.last().copied().unwrap_or_default(), fit.chi2))
    }
}

/// What is fitted beside every cause: what was adjusted, and the heights where they have an error.
fn beside(found: &Found) -> Vec<Unknown> {
    let adjusted = found
        .adjusted
        .iter()
        .flat_map(|change| tried_on(*change, found).into_iter().map(|of| Unknown::Change(of, *change)));
    let travels = found.values.iter().map(|value| Unknown::Height(value.outcome.side, value.outcome.travel));
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
