//! What the browser keeps: the last state of each of the last visits, newest first, as lines of a time and a link's parameters.
//! No visit writes over another one's line, so opening a link costs nobody their work.

/// So many visits are kept.
const MOST: usize = 12;

/// Dates end here in a browser, ms since 1970.
const LATEST: f64 = 8.64e15;

/// A visit's last state.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// When the visit began, ms since 1970.
    pub began: f64,
    /// The link's parameters.
    pub parameters: String,
}

/// Reads what is kept; lines that are none are passed over.
pub fn read(text: &str) -> Vec<Draft> {
    let line = |line: &str| {
        let (began, parameters) = line.split_once(' ')?;
        let began = began.parse().ok().filter(|began| (0.0..LATEST).contains(began))?;
        Some(Draft { began, parameters: parameters.to_string() })
    };
    text.lines().filter_map(line).take(MOST).collect()
}

/// What is to be kept after a visit has come to a state.
pub fn with(kept: &str, draft: &Draft) -> String {
    let mut drafts = read(kept);
    drafts.retain(|other| other.began != draft.began);
    drafts.insert(0, draft.clone());
    let line = |draft: &Draft| format!("{} {}\n", draft.began, draft.parameters);
    drafts.iter().take(MOST).map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_visit_has_its_own_line_and_the_newest_stands_first() {
        let draft = |began: f64, parameters: &str| Draft { began, parameters: parameters.into() };
        let mut kept = String::new();
        for (began, parameters) in [(1.0, "a"), (2.0, "b"), (1.0, "c")] {
            kept = with(&kept, &draft(began, parameters));
        }
        assert_eq!(read(&kept), [draft(1.0, "c"), draft(2.0, "b")]);
        for visit in 10..40 {
            kept = with(&kept, &draft(f64::from(visit), "x"));
        }
        assert_eq!(read(&kept).len(), MOST);
        assert_eq!(read(&kept)[0].began, 39.0);
    }

    #[test]
    fn what_is_no_draft_is_passed_over() {
        assert_eq!(
            read("\n\nx y\nNaN z\n5 v=2\ninf 3\n1e300 4\n-1 5"),
            [Draft { began: 5.0, parameters: "v=2".into() }]
        );
    }
}
