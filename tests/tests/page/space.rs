//! Wheel space on the page, without a browser: work gives what the kernel gives, and a position is gone to in one step.

use crate::work::answer;
use kernel::space::{Grid, Space};
use kernel::{Axle, Change, LeftOrRight, Member, Sides};
use tests::{DEMOS, demo};
use web::app::{App, Stand, Step};
use web::content::demos;
use web::work::{Work, space};

#[test]
fn the_work_s_room_is_the_kernel_s_to_the_last_digit_however_it_is_sliced() {
    for name in DEMOS {
        let mut layout = demo(name);
        layout.changes.set(Sides::One(LeftOrRight::Right), Change::Length(Member::LowerFront), 1.25);
        for side in LeftOrRight::BOTH {
            let task = space::task(&layout, side);
            let text = answer(&task, usize::MAX);
            assert_eq!(answer(&task, 7), text, "{name}");
            let room = space::room(&layout, &text).expect("a room");
            let should = Space::over(&Axle::new(&layout).expect("an axle"), side, &Grid::usual(&layout));
            let plane = should.pieces().side_plane();
            assert_eq!([room.litres, room.turning], [should.litres(plane), should.turning_litres(plane)], "{name}");
            assert_eq!(room.clearances, should.clearances(), "{name}");
            assert_eq!(room.unreached, should.unreached().len(), "{name}");
            let reach: Vec<_> = should.reach().named().map(|(name, extreme)| (name.to_string(), extreme)).collect();
            assert_eq!(room.reach, reach, "{name}");
        }
    }
    assert_eq!(space::room(&demo("strut"), ""), None);
    assert!(Work::start("space\nleft\nnot a layout").is_err());
}

#[test]
fn where_a_gap_is_least_is_one_step_away_and_back() {
    let mut app = App::new(demos::opening(), Vec::new());
    let before = app.gaps().to_vec();
    assert!(before.windows(2).all(|two| two[0].value <= two[1].value), "the least first");
    app.update(Stand::At(20.0, 10.0));
    assert_eq!([app.document.travel, app.document.rack, app.document.roll], [20.0, 10.0, 0.0]);
    assert_ne!(app.gaps(), before);
    app.update(Step::Undo);
    assert_eq!(app.gaps(), before);
}
