//! What is typed beside an axle: undone with the document, kept by drafts and files, carried by no link.

use kernel::{Axle, Layout, validate};
use web::app::{App, Open, Paper, Step};
use web::content::demos::first;
use web::document::alignment::{Alignment, Line, Row};
use web::document::{Document, Papers};
use web::exchange::drafts::{Draft, open, read, with};
use web::link;

fn sheet() -> Alignment {
    let mut sheet = Alignment { car: "Blue\none “2”".into(), date: "2026-11-26".into(), ..Alignment::default() };
    sheet.lines.insert(Row::Camber, Line { before: [Some(-1.25), None], error: Some(0.05), ..Line::default() });
    sheet
}

fn typed() -> App {
    let mut app = App::new(Document::of(first()), Vec::new());
    app.update(Paper::Alignment(Some(Box::new(sheet()))));
    app
}

#[test]
fn papers_are_undone_with_the_document() {
    let mut app = typed();
    assert!(app.edited() && app.can_undo());
    app.update(Step::Undo);
    assert_eq!(app.document.papers, Papers::default());
    app.update(Step::Redo);
    assert_eq!(app.document.papers.alignment.as_deref(), Some(&sheet()));
    // A demo is another car.
    app.update(Open::Demo(0));
    assert_eq!(app.document.papers, Papers::default());
    app.update(Step::Undo);
    assert_eq!(app.document.papers.alignment.as_deref(), Some(&sheet()));
}

#[test]
fn drafts_keep_them_and_links_do_not() {
    let document = typed().document;
    let parameters = link::write(&document);
    assert_eq!(parameters, link::write(&Document::of(first())));
    assert!(!parameters.contains(' '));
    let kept = with("", &Draft::of(7.0, &document));
    assert_eq!(kept.lines().count(), 1, "{kept}");
    let draft = read(&kept).remove(0);
    assert_eq!(draft.open().expect("a document"), (document.clone(), Vec::new()));
    // The page is loaded again: its address says the axle, the draft the rest. Another axle's address has nothing to do with it.
    assert_eq!(open(&kept, &parameters).expect("a document").0, document);
    let other = parameters.replace("name=", "name=x");
    assert_eq!(open(&kept, &other).expect("a document").0.papers, Papers::default());
    assert!(open(&kept, "").is_none());
    // Drafts of before papers.
    let old = read(&format!("5 {parameters}\n")).remove(0);
    assert_eq!(old.open().expect("a document").0, Document::of(first()));
    // Damaged papers lose nothing but themselves, and that is said.
    let (opened, says) = read(&format!("5 {parameters} {{\"alignment\": 3}}\n")).remove(0).open().expect("a document");
    assert_eq!(opened, Document::of(first()));
    assert!(says.len() == 1 && says[0].ends_with("opened without it."), "{says:?}");
}

#[test]
fn files_keep_them_and_the_kernel_reads_such_a_file() {
    let document = typed().document;
    let layout = Layout::from_json(&document.to_file()).expect("a layout");
    assert!(validate(&layout).is_empty() && Axle::new(&layout).is_ok());
    assert_eq!(Layout::from_json(&layout.to_json()), Ok(layout.clone()), "nor does the kernel lose them");
    assert_eq!(Document::of_file(layout), (document, Vec::new()));
    // Without papers a file is a layout's.
    assert_eq!(Document::of(first()).to_file(), first().to_json());
    let mut damaged = first();
    damaged.other.insert("papers".into(), "none".into());
    let (opened, says) = Document::of_file(damaged);
    assert_eq!((opened, says.len()), (Document::of(first()), 1));
}
