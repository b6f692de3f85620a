//! The page's furniture. No mathematics: every pane shows what the state says and sends messages.

mod alignment;
mod boxes;
mod compare;
mod compliance;
mod curves;
mod drawer;
mod film;
mod fit;
mod followed;
mod goals;
mod hand_ins;
mod hands;
mod help;
mod influence;
mod joints;
mod later;
mod lesson;
mod loads;
mod margins;
mod measure;
mod mine;
mod notice;
mod number_box;
mod pass_on;
mod pasting;
mod pictorial;
mod pinned;
mod points;
mod position;
mod pressed;
mod print;
mod projector;
mod protocol;
mod readings;
mod remarks;
mod row;
mod rows;
mod sheet;
mod space;
mod spread;
mod stepper;
mod story;
mod strip;
mod text_box;
mod title_block;
mod typed_box;
mod variants;
mod wheel;
mod workshop;

use crate::browser::page::{Page, Pane};
use later::Later;

/// Opens the page and furnishes it.
pub fn open() {
    let page = Page::open();
    compare::furnish(&page);
    mine::furnish(&page);
    pass_on::furnish(&page);
    pasting::furnish(&page);
    print::prepare(&page);
    let later = |id, furnish| -> Box<dyn Pane> { Box::new(Later::new(id, furnish)) };
    page.start(vec![
        Box::new(drawer::Drawer::new(&page)),
        Box::new(projector::Projector::new(&page)),
        // Canvases first: to set a font on one has the styles of all that was written before worked out at once.
        Box::new(sheet::Drawing::new(&page)),
        Box::new(pictorial::Pictorial::new(&page)),
        Box::new(row::RowPane::new(&page)),
        Box::new(curves::Curves::new(&page)),
        Box::new(strip::Strip::new(&page)),
        Box::new(position::Position::new(&page)),
        Box::new(margins::MarginsPane::new()),
        Box::new(readings::Readings::new(&page)),
        later("points", |page| Box::new(points::Points::new(page))),
        later("points", |page| Box::new(wheel::WheelPane::new(page))),
        Box::new(remarks::Remarks::new()),
        later("loads", |page| Box::new(loads::LoadsPane::new(page))),
        Box::new(hands::Switch::new(&page)),
        Box::new(stepper::Stepper::new(&page)),
        later("workshop", |page| Box::new(workshop::WorkshopPane::new(page))),
        later("influence", |page| Box::new(influence::InfluencePane::new(page))),
        later("alignment", |page| Box::new(alignment::AlignmentPane::new(page))),
        later("lesson", |page| Box::new(lesson::LessonPane::new(page))),
        later("measure", |page| Box::new(measure::MeasurePane::new(page))),
        later("compliance", |page| Box::new(compliance::CompliancePane::new(page))),
        later("space", |page| Box::new(space::SpacePane::new(page))),
        later("spread", |page| Box::new(spread::SpreadPane::new(page))),
        later("goals", |page| Box::new(goals::GoalsPane::new(page))),
        later("fit", |page| Box::new(fit::FitPane::new(page))),
        Box::new(story::Teller::new(&page)),
        Box::new(joints::Joints::default()),
        Box::new(title_block::TitleBlock::new(&page)),
        Box::new(variants::Variants::new(&page)),
        Box::new(notice::Notices::new(&page)),
    ]);
    help::furnish(&page);
}
