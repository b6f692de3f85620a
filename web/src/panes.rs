//! The page's furniture. No mathematics: every pane shows what the state says and sends messages.

mod alignment;
mod boxes;
mod compare;
mod compliance;
mod curves;
mod drawer;
mod fit;
mod followed;
mod goals;
mod hand_ins;
mod hands;
mod help;
mod influence;
mod joints;
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
mod points;
mod position;
mod pressed;
mod print;
mod protocol;
mod readings;
mod remarks;
mod row;
mod rows;
mod sheet;
mod space;
mod spread;
mod story;
mod strip;
mod text_box;
mod title_block;
mod typed_box;
mod variants;
mod wheel;
mod workshop;

use crate::browser::page::Page;

/// Opens the page and furnishes it.
pub fn open() {
    let page = Page::open();
    help::furnish(&page);
    compare::furnish(&page);
    mine::furnish(&page);
    pass_on::furnish(&page);
    pasting::furnish(&page);
    print::prepare(&page);
    page.start(vec![
        Box::new(drawer::Drawer::new(&page)),
        // Canvases first: to set a font on one has the styles of all that was written before worked out at once.
        Box::new(sheet::Drawing::new(&page)),
        Box::new(pictorial::Pictorial::new(&page)),
        Box::new(row::RowPane::new(&page)),
        Box::new(curves::Curves::new(&page)),
        Box::new(strip::Strip::new(&page)),
        Box::new(position::Position::new(&page)),
        Box::new(margins::MarginsPane::new()),
        Box::new(readings::Readings::new(&page)),
        Box::new(points::Points::new(&page)),
        Box::new(wheel::WheelPane::new(&page)),
        Box::new(remarks::Remarks::new()),
        Box::new(loads::LoadsPane::new(&page)),
        Box::new(hands::Switch::new(&page)),
        Box::new(workshop::WorkshopPane::new(&page)),
        Box::new(influence::InfluencePane::new(&page)),
        Box::new(alignment::AlignmentPane::new(&page)),
        Box::new(lesson::LessonPane::new(&page)),
        Box::new(measure::MeasurePane::new(&page)),
        Box::new(compliance::CompliancePane::new(&page)),
        Box::new(space::SpacePane::new(&page)),
        Box::new(spread::SpreadPane::new(&page)),
        Box::new(goals::GoalsPane::new(&page)),
        Box::new(fit::FitPane::new(&page)),
        Box::new(story::Teller::new(&page)),
        Box::new(joints::Joints::default()),
        Box::new(title_block::TitleBlock::new(&page)),
        Box::new(variants::Variants::new(&page)),
        Box::new(notice::Notices::new(&page)),
    ]);
}
