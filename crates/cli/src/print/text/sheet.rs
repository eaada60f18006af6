//! The sheet to fill in on the roof: one printed side.

/// `##` stands for the unit of length, `@@` for that of weight, `~~~~~~` for a reading as an example.
const SHEET: &str = include_str!("sheet.txt");

/// The sheet in millimetres and kilograms, or in inches and pounds.
pub(crate) fn blank_sheet(metric: bool) -> String {
    let (length, weight, example) = if metric { ("mm", "kg", "1172") } else { ("in", "lb", "46 1/8") };
    SHEET.replace("##", length).replace("@@", weight).replace("~~~~~~", example)
}

#[cfg(test)]
mod tests {
    use super::blank_sheet;

    #[test]
    fn the_sheet_fits_one_page() {
        for sheet in [blank_sheet(false), blank_sheet(true)] {
            assert!(sheet.is_ascii(), "a printer may know no other characters");
            assert!(sheet.lines().count() <= 60, "{} lines", sheet.lines().count());
            for line in sheet.lines() {
                assert!(line.len() <= 80, "{} columns: {line}", line.len());
            }
        }
    }
}
