//! What is wrong with a data file.

use std::fmt;

/// One thing wrong in one place of one data file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The file, as it was opened.
    pub file: String,
    /// Line in that file, from 1; 0 where the file as a whole is meant.
    pub line: u64,
    /// What stands there.
    pub value: String,
    /// Why it cannot be, and what can.
    pub why: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.file)?;
        if self.line > 0 {
            write!(f, ", line {}", self.line)?;
        }
        write!(f, ": {}: {}", self.value, self.why)
    }
}

/// Tables that could not be read: every fault found, in the order of the files.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", .faults.iter().map(Fault::to_string).collect::<Vec<_>>().join("\n"))]
pub struct LoadError {
    /// Never empty.
    pub faults: Vec<Fault>,
}
