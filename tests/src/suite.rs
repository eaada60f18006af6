//! Runs the rows of a file, and shows that each can fail.

use std::io::Write;

use crate::case::{Case, Kind, read};
use crate::folder::{FILES, Folder, data};
use crate::route;

/// Reads a file's rows.
///
/// # Panics
/// Where the file is at fault.
pub fn rows(folder: Folder, file: &str) -> Vec<Case> {
    assert!(FILES.contains(&(folder, file)), "{file} is not listed among the files of rows");
    read(&data(&format!("{}/{file}.csv", folder.name()))).unwrap_or_else(|fault| panic!("{fault}"))
}

/// Runs every row of a file and reports all that fail at once. A file in which nothing ran fails.
///
/// # Panics
/// Where a row fails, no row ran, or a row of the wrong kind lies in the folder.
pub fn hold(folder: Folder, file: &str) {
    let rows = rows(folder, file);
    assert!(!rows.is_empty(), "{file}: no row ran");
    let (mut failures, mut worst) = (Vec::new(), (0.0, ""));
    for case in &rows {
        if (folder == Folder::Validation) != (case.kind == Kind::Published) {
            failures.push(format!(
                "{}: a {} number does not belong in {}",
                case.id,
                case.kind,
                folder.name()
            ));
        }
        match answer(case).and_then(|found| case.compare(found)) {
            Ok(off) if off >= worst.0 => worst = (off, case.id.as_str()),
            Ok(_) => {}
            Err(failure) => failures.push(failure),
        }
    }
    say(&format!(
        "{}/{file}: {} rows, {} fail, worst of the rest uses {:.0} % of its tolerance ({})",
        folder.name(),
        rows.len(),
        failures.len(),
        100.0 * worst.0,
        worst.1
    ));
    assert!(failures.is_empty(), "{} of {} rows:\n{}", failures.len(), rows.len(), failures.join("\n"));
}

/// Reruns every row of a file with its most sensitive input shifted by the larger of 5 percent and three tolerances,
/// and demands that it fails. Returns how many rows are exempt.
///
/// # Panics
/// Where a shifted row still holds, or a row names an input that it does not have.
pub fn shift(folder: Folder, file: &str) -> usize {
    let (mut faults, mut exempt) = (Vec::new(), 0);
    for case in rows(folder, file) {
        if let Some(reason) = case.shift.strip_prefix("none: ") {
            assert!(reason.len() > 10, "{}: say why no input can be shifted", case.id);
            exempt += 1;
        } else if let Err(fault) = notices(&case, &case.shift) {
            faults.push(fault);
        }
    }
    assert!(faults.is_empty(), "rows that cannot fail:\n{}", faults.join("\n"));
    exempt
}

/// Whether a row fails once one of its inputs is shifted. A route that refuses the larger input gets the smaller.
///
/// # Errors
/// The row, where it still holds.
pub fn notices(case: &Case, input: &str) -> Result<(), String> {
    let step = (3.0 * case.relative_slack()).max(0.05);
    let mut refused = String::new();
    for factor in [1.0 + step, 1.0 - step] {
        let inputs = case.inputs.shifted(input, factor).map_err(|e| format!("{}: {e}", case.id))?;
        match route::answer(&case.route, &case.quantity, &inputs) {
            Ok(found) if case.compare(found).is_err() => return Ok(()),
            Ok(_) => return Err(format!("{}: still holds with {input} times {factor}", case.id)),
            Err(why) => refused = why,
        }
    }
    Err(format!("{}: {input} cannot be shifted: {refused}", case.id))
}

fn answer(case: &Case) -> Result<f64, String> {
    let fault = |why: String| format!("{}: {why}", case.id);
    let found = route::answer(&case.route, &case.quantity, &case.inputs).map_err(fault)?;
    let unread = case.inputs.unread();
    if unread.is_empty() { Ok(found) } else { Err(fault(format!("nobody reads {}", unread.join(", ")))) }
}

/// Says a line where people see it, whether or not the test passes.
pub fn say(line: &str) {
    // A closed stderr is no reason to fail.
    let _ = writeln!(std::io::stderr(), "{line}");
}
