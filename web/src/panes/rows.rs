//! A table of text.

use crate::browser::dom::{Shown, find, make, set};
use std::cell::RefCell;
use web_sys::Element;

/// A table of which only the cells that change are written.
pub struct Rows {
    body: Element,
    lines: RefCell<Vec<Line>>,
}

/// A row: its element, and text and class of each cell.
struct Line {
    row: Element,
    cells: Vec<[Shown; 2]>,
}

impl Rows {
    /// The body of a table of the page.
    pub fn new(table: &str) -> Rows {
        let table: Element = find(table);
        let body = table.query_selector("tbody").ok().flatten().unwrap_or_else(|| make(&table, "tbody"));
        Rows { body, lines: RefCell::default() }
    }

    /// Shows rows of cells, the first of each its heading; a cell that begins with `!` is beyond a limit.
    pub fn show(&self, rows: Vec<Vec<String>>) {
        let mut lines = self.lines.borrow_mut();
        // A row with more cells or fewer is another row.
        let same = lines.iter().zip(&rows).take_while(|(line, row)| line.cells.len() == row.len()).count();
        lines.drain(same..).for_each(|line| line.row.remove());
        lines.extend(rows[same..].iter().map(|row| Line::new(&self.body, row.len())));
        for (line, row) in lines.iter().zip(&rows) {
            for ([shown, class], text) in line.cells.iter().zip(row) {
                class.show(if text.starts_with('!') { "over" } else { "" });
                shown.show(text.trim_start_matches('!'));
            }
        }
    }
}

impl Line {
    fn new(body: &Element, cells: usize) -> Line {
        let row: Element = make(body, "tr");
        let cell = |at: usize| {
            let cell: Element = make(&row, if at == 0 { "th" } else { "td" });
            if at == 0 {
                set(&cell, "scope", "row");
            }
            [Shown::text(cell.clone()), Shown::attribute(cell, "class")]
        };
        let cells = (0..cells).map(cell).collect();
        Line { row, cells }
    }
}
