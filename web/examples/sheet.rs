//! The drawing on the command line: `sheet LAYOUT.json TRAVEL RACK OUT.svg [dark] [front|side|plan|pictorial]`.

#![allow(clippy::print_stdout, reason = "it says where it wrote")]

use kernel::Layout;
use web::app::{App, Hand, Stand};
use web::document::Document;
use web::drawing::svg::svg;
use web::drawing::{Arrangement, Sheet, Theme, View, draw};

fn main() -> Result<(), String> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [file, travel, rack, out, rest @ ..] = &arguments[..] else {
        return Err("The call is: sheet LAYOUT.json TRAVEL RACK OUT.svg [dark] [front|side|plan|pictorial]".into());
    };
    let text = std::fs::read_to_string(file).map_err(|e| e.to_string())?;
    let mut app = App::new(Document::of(Layout::from_json(&text)?), Vec::new());
    app.update(Stand::Travel(travel.parse().map_err(|_| "TRAVEL is no number")?));
    app.update(Stand::Rack(rack.parse().map_err(|_| "RACK is no number")?));
    app.update(Hand::Select(Some(kernel::PointId::UpperFrontOuter)));
    let picture = app.picture();
    let one = [("front", View::Front), ("side", View::Side), ("plan", View::Plan), ("pictorial", View::Pictorial)];
    let one = one.into_iter().find(|(name, _)| rest.iter().any(|word| word == name));
    let (size, arrangement) = match one {
        Some((_, view)) => ([390.0, 408.0], Arrangement::One(view)),
        None => ([983.0, 810.0], Arrangement::Cross { drawer: [416.0, 348.0] }),
    };
    let theme = if rest.iter().any(|word| word == "dark") { Theme::DARK } else { Theme::LIGHT };
    let sheet = Sheet::fit(size, arrangement, &picture);
    let scene = draw(&picture, &sheet);
    let start = std::time::Instant::now();
    for _ in 0..100 {
        std::hint::black_box(draw(&picture, &sheet));
    }
    println!("{out}: {} items, drawn in {:?}", scene.items.len(), start.elapsed() / 100);
    std::fs::write(out, svg(&scene, theme)).map_err(|e| e.to_string())
}
