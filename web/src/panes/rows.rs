//! A table of text.

use crate::browser::dom::{find, make, set};
use std::cell::RefCell;
use web_sys::Element;

/// A table whose rows are written anew only from the first one that changes.
pub struct Rows {
    body: Element,
    last: RefCell<Vec<Vec<String>>>,
}

impl Rows {
    /// The body of a table of the page.
    pub fn new(table: &str) -> Rows {
        let table: Element = find(table);
        let body = table.query_selector("tbody").ok().flatten().unwrap_or_else(|| make(&table, "tbody"));
        Rows { body, last: RefCell::default() }
    }

    /// Shows rows of cells, the first of each its heading; a cell that begins with `!` is beyond a limit.
    pub fn show(&self, rows: Vec<Vec<String>>) {
        if *self.last.borrow() == rows {
            return;
        }
        let same = self.last.borrow().iter().zip(&rows).take_while(|(old, new)| old == new).count();
        while self.body.child_element_count() as usize > same
            && let Some(row) = self.body.last_element_child()
        {
            row.remove();
        }
        for row in &rows[same..] {
            let line: Element = make(&self.body, "tr");
            for (at, text) in row.iter().enumerate() {
                let cell: Element = make(&line, if at == 0 { "th" } else { "td" });
                if at == 0 {
                    set(&cell, "scope", "row");
                }
                if text.starts_with('!') {
                    cell.set_class_name("over");
                }
                cell.set_text_content(Some(text.trim_start_matches('!')));
            }
        }
        self.last.replace(rows);
    }
}
