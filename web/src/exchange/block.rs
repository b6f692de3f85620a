//! A block of points as spreadsheets copy it: a line a point, cells apart by tabs, semicolons or commas.

use crate::text::number::{fixed, parse};
use kernel::{Layout, PointId, Vec3, clip};

/// The points of a layout, a line each: name, x, y, z, apart by tabs.
pub fn write(layout: &Layout) -> String {
    let line = |(id, p): (PointId, Vec3)| format!("{}\t{}\t{}\t{}\n", id.name(), plain(p.x), plain(p.y), plain(p.z));
    layout.points().map(line).collect()
}

fn plain(value: f64) -> String {
    fixed(value, 2).replace('\u{2212}', "-")
}

/// More lines than this are no table of joints.
const MOST_LINES: usize = 200;

/// Reads a block: lines of a point's name and three numbers, or, without names, as many lines of three numbers as the layout
/// has points, in their order. Lines without any number (headings) are passed over. Where cells are apart by tabs or
/// semicolons, a comma is a decimal sign. The error is a sentence that names the line.
pub fn read(text: &str, layout: &Layout) -> Result<Vec<(PointId, Vec3)>, String> {
    let lines: Vec<(usize, Vec<&str>)> = text.lines().enumerate().map(|(i, line)| (i + 1, cells(line))).collect();
    if lines.len() > MOST_LINES {
        return Err(format!("The pasted text has {} lines; a table of joints has about a dozen.", lines.len()));
    }
    let ids: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
    let rows: Vec<&(usize, Vec<&str>)> =
        lines.iter().filter(|(_, cells)| cells.iter().any(|cell| parse(cell).is_some())).collect();
    let named = rows.iter().any(|(_, cells)| cells.first().is_some_and(|cell| parse(cell).is_none()));
    if rows.is_empty() {
        return Err("The pasted text contains no numbers.".into());
    }
    if !named && rows.len() != ids.len() {
        return Err(format!(
            "The pasted text has {} lines of numbers without names; this axle has {} points.",
            rows.len(),
            ids.len()
        ));
    }
    let point = |(at, (line, cells)): (usize, &&(usize, Vec<&str>))| {
        let (id, numbers) = if named {
            let name = cells.first().copied().unwrap_or_default();
            let id = ids.iter().copied().find(|id| id.name().eq_ignore_ascii_case(name.trim()));
            (id.ok_or_else(|| format!("Line {line}: this axle has no point “{}”.", clip(name)))?, &cells[1..])
        } else {
            (ids[at], &cells[..])
        };
        Ok((id, coordinates(*line, id, numbers)?))
    };
    let points: Vec<(PointId, Vec3)> = rows.iter().enumerate().map(point).collect::<Result<_, String>>()?;
    let twice = points.iter().enumerate().find(|(at, (id, _))| points[..*at].iter().any(|(other, _)| other == id));
    match twice {
        Some((at, (id, _))) => Err(format!("Line {}: the {} appears twice.", rows[at].0, id.name())),
        None => Ok(points),
    }
}

fn coordinates(line: usize, id: PointId, cells: &[&str]) -> Result<Vec3, String> {
    let numbers: Vec<f64> = cells
        .iter()
        .filter(|cell| !cell.trim().is_empty())
        .map(|cell| {
            parse(cell).ok_or_else(|| format!("Line {line}: “{}” of the {} is not a number.", clip(cell), id.name()))
        })
        .collect::<Result<_, _>>()?;
    match numbers[..] {
        [x, y, z] => Ok(Vec3::new(x, y, z)),
        _ => Err(format!("Line {line}: the {} has {} numbers, not three.", id.name(), numbers.len())),
    }
}

/// A line's cells. A name has commas of its own, so commas part cells only where nothing else does and a number follows.
fn cells(line: &str) -> Vec<&str> {
    for sign in ['\t', ';'] {
        if line.contains(sign) {
            return line.split(sign).collect();
        }
    }
    // From the right, three numbers; what is left of them is the name.
    let mut cells: Vec<&str> = line.rsplitn(4, ',').map(str::trim).collect();
    cells.reverse();
    cells
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::content::demos::first;

    #[test]
    fn a_block_goes_out_and_comes_back() {
        let layout = first();
        let points: Vec<_> = layout.points().collect();
        assert_eq!(read(&write(&layout), &layout), Ok(points));
    }

    #[test]
    fn spreadsheets_of_any_country_are_read() {
        let layout = first();
        let place = Ok(vec![(PointId::TrackRodOuter, Vec3::new(-130.5, 690.0, 297.25))]);
        for text in [
            "point\tx\ty\tz\ntrack rod, outer joint\t-130,5\t690\t297,25\n",
            "Track rod, outer joint;-130,5;690;297,25",
            "track rod, outer joint,-130.5,690,297.25\r\n",
            "track rod, outer joint\t−130.5\t690.0\t297.25\t",
        ] {
            assert_eq!(read(text, &layout), place, "{text}");
        }
        let bare: String = layout.points().map(|(_, p)| format!("{},{},{}\n", p.x, p.y, p.z)).collect();
        assert_eq!(read(&bare, &layout), Ok(layout.points().collect()));
    }

    #[test]
    fn what_is_wrong_is_named_by_its_line() {
        let layout = first();
        for (text, words) in [
            ("strut foot\t1\t2\t3", "Line 1: this axle has no point “strut foot”."),
            ("\nspring top\t1\tx\t3", "Line 2: “x” of the spring top is not a number."),
            ("spring top\t1\t2", "Line 1: the spring top has 2 numbers, not three."),
            ("1\t2\t3\n", "1 lines of numbers without names; this axle has 15 points"),
            ("hello", "contains no numbers"),
            ("spring top\t1\t2\t3\nspring top\t1\t2\t3", "Line 2: the spring top appears twice."),
        ] {
            let said = read(text, &layout).expect_err(text);
            assert!(said.contains(words), "{said}");
        }
        assert!(read(&"1,2,3\n".repeat(1000), &layout).is_err());
    }
}
