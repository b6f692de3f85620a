//! A block of points as spreadsheets copy it: a line a point, cells apart by tabs, semicolons, commas or blanks; all numbers in mm.
//!
//! A row is a point's name and x, y, z, and maybe ±; a blank cell was not measured. In front of a name its number on the measuring sheet may stand.
//! Rows without names go into a table from a cell on, to the right and down. Lines without any number (headings) are passed over. Where cells are
//! apart by tabs or semicolons, a comma is a decimal sign. Long because the tests stand beside it.

use crate::document::{MOST_ERROR, Measured};
use crate::text::number::{fixed, parse};
use kernel::{LIMIT, Layout, PointId, Vec3, clip};
use std::collections::BTreeMap;

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

/// x, y, z, ±.
const COLUMNS: usize = 4;

/// What somebody calls points, in small letters; `None` for what is no point of this axle.
pub type Names = BTreeMap<String, Option<PointId>>;

/// A cell of a table of points: the point's place among the layout's, and 0 to 3 for x, y, z, ±.
pub type Cell = (usize, usize);

/// What is understood of a block.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Block {
    /// The rows that can be used.
    pub rows: Vec<Measured>,
    /// Names that are not known yet, as they are written.
    pub unknown: Vec<String>,
    /// What is wrong with other rows, a sentence each.
    pub wrong: Vec<String>,
}

impl Block {
    /// True if all of it can be used as it is, without a question.
    pub fn is_plain(&self) -> bool {
        self.unknown.is_empty() && self.wrong.is_empty() && !self.is_of_the_right()
    }

    /// True if it looks like a right wheel's: it has a y, and none is to the left of the centre plane.
    pub fn is_of_the_right(&self) -> bool {
        let mut ys = self.rows.iter().filter_map(|row| row.at[1]).filter(|y| *y != 0.0).peekable();
        ys.peek().is_some() && ys.all(|y| y < 0.0)
    }

    /// The rows as the mirror image has them.
    pub fn mirrored(&self) -> Vec<Measured> {
        let other = |row: &Measured| Measured { at: [row.at[0], row.at[1].map(|y| -y), row.at[2]], ..*row };
        self.rows.iter().map(other).collect()
    }
}

/// Reads a block. Rows without names begin at `from`; where no cell is given, there have to be as many as the layout has points. The error, a
/// sentence, is of a block of which nothing can be used.
pub fn read(text: &str, layout: &Layout, names: &Names, from: Option<Cell>) -> Result<Block, String> {
    let lines: Vec<(usize, Vec<&str>)> = text.lines().enumerate().map(|(i, line)| (i + 1, cells(line))).collect();
    if lines.len() > MOST_LINES {
        return Err(format!("The pasted text has {} lines; a table of joints has about a dozen.", lines.len()));
    }
    let ids: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
    let rows: Vec<&(usize, Vec<&str>)> =
        lines.iter().filter(|(_, cells)| cells.iter().any(|cell| parse(cell).is_some())).collect();
    if rows.is_empty() {
        return Err("The pasted text contains no numbers.".into());
    }
    let named = rows.iter().any(|(_, cells)| name_of(cells).is_some());
    let (first, column) = match from {
        Some(cell) => cell,
        None if named || rows.len() == ids.len() => (0, 0),
        None => {
            return Err(format!(
                "The pasted text has {} rows without names. Put the cursor into the cell where the first of them belongs, and paste there.",
                rows.len()
            ));
        }
    };
    let mut block = Block::default();
    for (at, (line, cells)) in rows.into_iter().enumerate() {
        let row = if named {
            let Some((name, numbers)) = name_of(cells) else {
                block.wrong.push(format!("Row {line} has no name."));
                continue;
            };
            match known(name, &ids, names) {
                Some(Some(id)) => {
                    measured(*line, id, 0, numbers).and_then(|row| complete(*line, id, numbers.len(), row))
                }
                Some(None) => continue,
                None => {
                    if !block.unknown.iter().any(|other| other.eq_ignore_ascii_case(name)) {
                        block.unknown.push(name.into());
                    }
                    continue;
                }
            }
        } else {
            let below = || format!("Row {line} would stand below the last point.");
            ids.get(first + at).ok_or_else(below).and_then(|id| measured(*line, *id, column, cells))
        };
        match row {
            Ok(row) if block.rows.iter().any(|other| other.point == row.point) => {
                block.wrong.push(format!("Row {line}: the {} appears twice.", row.point.name()));
            }
            Ok(row) => block.rows.push(row),
            Err(sentence) => block.wrong.push(sentence),
        }
    }
    Ok(block)
}

/// The name a row begins with, behind its number on the sheet if that stands there, and what follows it.
fn name_of<'a, 'b>(cells: &'b [&'a str]) -> Option<(&'a str, &'b [&'a str])> {
    let is_name = |cell: &&&str| !cell.trim().is_empty() && parse(cell).is_none();
    let at = match (cells.first().filter(is_name), cells.get(1).filter(is_name)) {
        (Some(_), _) => 0,
        // A number, a name, numbers; a number and a slip of a number is no name.
        (None, Some(_)) if cells.len() > 1 + COLUMNS || cells.get(1).is_some_and(|cell| cell.contains(' ')) => 1,
        _ => return None,
    };
    Some((cells[at].trim(), &cells[at + 1..]))
}

/// The point of a name: `None` is not known, `Some(None)` is to be left out.
fn known(name: &str, ids: &[PointId], names: &Names) -> Option<Option<PointId>> {
    let own = ids.iter().copied().find(|id| id.name().eq_ignore_ascii_case(name));
    let given = || names.get(&name.to_lowercase()).copied();
    own.map(Some).or_else(given).filter(|id| id.is_none_or(|id| ids.contains(&id)))
}

/// A point's numbers, of which the first belongs into `column`.
fn measured(line: usize, id: PointId, column: usize, cells: &[&str]) -> Result<Measured, String> {
    let last = cells.iter().rposition(|cell| !cell.trim().is_empty()).map_or(0, |at| at + 1);
    if column + last > COLUMNS {
        return Err(format!("Row {line}: the {} has more numbers than x, y, z and ±.", id.name()));
    }
    let mut row = Measured::nothing(id);
    for (at, cell) in cells[..last].iter().enumerate().filter(|(_, cell)| !cell.trim().is_empty()) {
        let value = parse(cell)
            .ok_or_else(|| format!("Row {line}: “{}” of the {} is not a number.", clip(cell.trim()), id.name()))?;
        let most = if column + at == 3 { 0.0..=MOST_ERROR } else { -LIMIT..=LIMIT };
        if !most.contains(&value) {
            return Err(format!("Row {line}: the {} can’t have the value {}.", id.name(), clip(cell.trim())));
        }
        row = row.with(column + at, Some(value));
    }
    Ok(row)
}

/// A row with a name has a cell for each of x, y, z, be it blank: of two numbers alone it would be a guess which they are.
fn complete(line: usize, id: PointId, cells: usize, row: Measured) -> Result<Measured, String> {
    let numbers = row.numbers().iter().flatten().count();
    if cells >= 3 {
        return Ok(row);
    }
    let word = if numbers == 1 { "number" } else { "numbers" };
    Err(format!("Row {line}: the {} has {numbers} {word}, not three.", id.name()))
}

/// A line's cells. A name has commas and blanks of its own, so these part cells only where nothing else does and numbers follow.
fn cells(line: &str) -> Vec<&str> {
    for sign in ['\t', ';'] {
        if line.contains(sign) {
            return line.split(sign).collect();
        }
    }
    if parse(line).is_some() {
        return vec![line];
    }
    by(line, |line| line.rsplit_once(char::is_whitespace))
        .or_else(|| by(line, |line| line.rsplit_once(',')))
        .unwrap_or_else(|| {
            // From the right, three numbers, of which one is none; what is left of them is the name.
            let mut cells: Vec<&str> = line.rsplitn(4, ',').map(str::trim).collect();
            cells.reverse();
            cells
        })
}

/// Three or four numbers from the right, and what is left of them, if there are so many.
fn by<'a>(line: &'a str, split: impl Fn(&'a str) -> Option<(&'a str, &'a str)>) -> Option<Vec<&'a str>> {
    let (mut rest, mut cells) = (line.trim(), Vec::new());
    while cells.len() < COLUMNS {
        let (before, last) = split(rest).unwrap_or(("", rest));
        if parse(last).is_none() {
            break;
        }
        cells.push(last);
        rest = before.trim_end();
    }
    if !rest.is_empty() {
        cells.push(rest);
    }
    cells.reverse();
    (cells.len() - usize::from(!rest.is_empty()) >= 3).then_some(cells)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::content::demos::first;

    const ROD: PointId = PointId::TrackRodOuter;

    /// Everything by name, in the order of the layout.
    fn plainly(text: &str) -> Result<Block, String> {
        read(text, &first(), &Names::new(), None)
    }

    #[test]
    fn a_block_goes_out_and_comes_back() {
        let layout = first();
        let rows: Vec<Measured> = layout.points().map(Measured::from).collect();
        let block = plainly(&write(&layout)).expect("a block");
        assert!(block.is_plain());
        assert_eq!(block.rows, rows);
    }

    #[test]
    fn spreadsheets_of_any_country_are_read() {
        let place = Measured::from((ROD, Vec3::new(-130.5, 690.0, 297.25)));
        for text in [
            "point\tx\ty\tz\ntrack rod, outer joint\t-130,5\t690\t297,25\n",
            "Track rod, outer joint;-130,5;690;297,25",
            "track rod, outer joint,-130.5,690,297.25\r\n",
            "track rod, outer joint\t−130.5\t690.0\t297.25\t",
            "track rod, outer joint  -130,5 690 297,25",
            "10\ttrack rod, outer joint\t-130,5\t690\t297,25",
        ] {
            assert_eq!(plainly(text).map(|block| block.rows), Ok(vec![place]), "{text}");
        }
        let exact = place.with(3, Some(2.0));
        for text in ["track rod, outer joint,-130.5,690,297.25,2", "track rod, outer joint\t-130,5\t690\t297,25\t2"] {
            assert_eq!(plainly(text).map(|block| block.rows), Ok(vec![exact]), "{text}");
        }
        let layout = first();
        for sign in [",", " ", ", "] {
            let bare: String = layout.points().map(|(_, p)| format!("{}{sign}{}{sign}{}\n", p.x, p.y, p.z)).collect();
            assert_eq!(plainly(&bare).map(|block| block.rows), plainly(&write(&layout)).map(|block| block.rows));
        }
        // A blank cell was not measured.
        assert_eq!(
            plainly("track rod, outer joint\t-130,5\t\t297,25").map(|block| block.rows),
            Ok(vec![place.with(1, None)])
        );
    }

    #[test]
    fn what_is_wrong_is_told_by_its_row_and_the_others_are_kept() {
        for (text, words) in [
            ("\nspring top\t1\tx\t3", "Row 2: “x” of the spring top is not a number."),
            ("spring top\t1\t2", "Row 1: the spring top has 2 numbers, not three."),
            ("spring top\t1\t2\t3\t4\t5", "more numbers than x, y, z and ±"),
            ("spring top\t1\t2\t10001", "Row 1: the spring top can’t have the value 10001."),
            ("spring top\t1\t2\t3\t51", "can’t have the value 51."),
            ("spring top\t1\t2\t3\n4\t5\t6", "Row 2 has no name."),
            ("spring top\t1\t2\t3\nspring top\t1\t2\t3", "Row 2: the spring top appears twice."),
        ] {
            let block = plainly(&format!("{text}\nwheel centre\t0\t765\t305")).expect(text);
            assert_eq!(block.wrong.len(), 1, "{block:?}");
            assert!(block.wrong[0].contains(words), "{:?}", block.wrong);
            assert_eq!(block.rows.last().map(|row| row.point), Some(PointId::WheelCentre), "{text}");
        }
        for (text, words) in [("1\t2\t3\n", "has 1 rows without names"), ("hello", "contains no numbers")] {
            let said = plainly(text).expect_err(text);
            assert!(said.contains(words), "{said}");
        }
        assert!(plainly(&"1,2,3\n".repeat(1000)).is_err());
    }

    #[test]
    fn rows_without_names_go_from_a_cell_to_the_right_and_down() {
        let layout = first();
        let ids: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
        let block = read("1\t2\n3\t4\n", &layout, &Names::new(), Some((2, 1))).expect("a block");
        let row = |id| Measured::nothing(id);
        let should =
            [row(ids[2]).with(1, Some(1.0)).with(2, Some(2.0)), row(ids[3]).with(1, Some(3.0)).with(2, Some(4.0))];
        assert_eq!((block.rows, block.wrong), (should.to_vec(), Vec::new()));
        let block = read("1\t2\t3\n4\t5\t6\n", &layout, &Names::new(), Some((ids.len() - 1, 0))).expect("a block");
        assert_eq!((block.rows.len(), block.wrong), (1, vec!["Row 2 would stand below the last point.".to_string()]));
        let block = read("296\n299,5", &layout, &Names::new(), Some((2, 2))).expect("a block");
        assert_eq!(block.rows.iter().map(|row| row.at[2]).collect::<Vec<_>>(), [Some(296.0), Some(299.5)]);
        let block = read("1\t2\t3", &layout, &Names::new(), Some((0, 2))).expect("a block");
        assert_eq!(block.wrong.len(), 1);
    }

    #[test]
    fn own_names_are_asked_for_and_then_known() {
        let layout = first();
        let text = "LCA front\t21\t341\t189\nTie rod end\t-131\t691\t298\nJunk\t1\t2\t3\n";
        let block = plainly(text).expect("a block");
        assert_eq!(
            (block.rows.len(), &block.unknown[..]),
            (0, &["LCA front", "Tie rod end", "Junk"].map(String::from)[..])
        );
        let names = Names::from([
            ("lca front".into(), Some(PointId::LowerFrontInner)),
            ("tie rod end".into(), Some(ROD)),
            ("junk".into(), None),
        ]);
        let block = read(text, &layout, &names, None).expect("a block");
        assert!(block.is_plain());
        assert_eq!(block.rows.iter().map(|row| row.point).collect::<Vec<_>>(), [PointId::LowerFrontInner, ROD]);
    }

    #[test]
    fn a_right_wheels_data_can_be_mirrored() {
        let block = plainly("spring top\t10\t-540\t760\nwheel centre\t0\t-765\t305").expect("a block");
        assert!(block.is_of_the_right() && !block.is_plain());
        assert_eq!(block.mirrored()[0].at, [Some(10.0), Some(540.0), Some(760.0)]);
        // One point beyond the centre plane is a point of a left wheel's all the same; and of no y nothing can be said.
        assert!(!plainly("spring top\t10\t540\t760\nwheel centre\t0\t-5\t305").expect("a block").is_of_the_right());
        assert!(!plainly("spring top\t10\t\t760").expect("a block").is_of_the_right());
    }
}
