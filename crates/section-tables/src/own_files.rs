//! Finding a shop's own tables in a folder.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::Fault;
use crate::read::DataFile;
use crate::shipped::SHIPPED;

/// The tables in `folder` and one folder deeper, and what is wrong with the files there.
///
/// Only `.csv` files count; one that is no table is a fault, or its rows would be missed in silence.
pub(crate) fn read(folder: &Path) -> (Vec<DataFile>, Vec<Fault>) {
    let (mut files, mut faults) = (Vec::new(), Vec::new());
    let paths = match csv_paths(folder) {
        Ok(paths) => paths,
        Err(error) => return (files, vec![fault(folder, "folder", error.to_string())]),
    };
    let tables = || SHIPPED.iter().map(|(table, _)| *table);
    for path in paths {
        match (tables().find(|table| folder.join(table) == path), fs::read_to_string(&path)) {
            (Some(table), Ok(text)) => {
                files.push(DataFile { table, shown_as: path.display().to_string(), own: true, text });
            }
            (Some(_), Err(error)) => faults.push(fault(&path, "file", error.to_string())),
            (None, _) => faults.push(fault(&path, "file", no_table("is no table"))),
        }
    }
    if files.is_empty() && faults.is_empty() {
        faults.push(fault(folder, "folder", no_table("holds no table")));
    }
    (files, faults)
}

fn csv_paths(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let inside =
        |folder: &Path| fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<io::Result<Vec<_>>>();
    let mut paths = inside(folder)?;
    for deeper in paths.clone().iter().filter(|path| path.is_dir()) {
        paths.extend(inside(deeper)?);
    }
    paths.retain(|path| path.is_file() && path.extension().is_some_and(|ending| ending == "csv"));
    paths.sort();
    Ok(paths)
}

fn no_table(what: &str) -> String {
    let known: Vec<_> = SHIPPED.iter().map(|(table, _)| *table).collect();
    format!("{what}; the tables are {}", known.join(", "))
}

fn fault(path: &Path, value: &str, why: String) -> Fault {
    Fault { file: path.display().to_string(), line: 0, value: value.into(), why }
}
