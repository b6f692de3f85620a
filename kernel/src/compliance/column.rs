//! A column of the table.

/// A quantity of compliance that is read from an `S`, as tables tell it.
#[derive(Clone, Copy)]
pub struct Column<S: 'static> {
    /// Name in tables, with its unit.
    pub column: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// What it is, in a sentence.
    pub meaning: &'static str,
    /// What a positive value says, of the left wheel.
    pub positive: &'static str,
    /// The value; `None` where there is none.
    pub value: fn(&S) -> Option<f64>,
}
