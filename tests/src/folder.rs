//! Where the rows lie.

use std::path::PathBuf;

/// The two folders of rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Folder {
    /// Numbers printed by others.
    Validation,
    /// Numbers computed by another route, or remembered.
    Verification,
}

impl Folder {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Validation => "validation",
            Self::Verification => "verification",
        }
    }
}

/// Every file of rows; one named test each.
pub const FILES: [(Folder, &str); 21] = [
    (Folder::Validation, "tubes"),
    (Folder::Validation, "adm_constants"),
    (Folder::Validation, "adm_elements"),
    (Folder::Validation, "adm_examples"),
    (Folder::Validation, "en_alloys"),
    (Folder::Validation, "en_tubes"),
    (Folder::Validation, "plates"),
    (Folder::Validation, "materials"),
    (Folder::Verification, "tubes"),
    (Folder::Verification, "adm_constants"),
    (Folder::Verification, "adm_members"),
    (Folder::Verification, "en_members"),
    (Folder::Verification, "aluminium"),
    (Folder::Verification, "sandwiches"),
    (Folder::Verification, "bonds"),
    (Folder::Verification, "arches"),
    (Folder::Verification, "rings"),
    (Folder::Verification, "feet"),
    (Folder::Verification, "wrinkling"),
    (Folder::Verification, "plates"),
    (Folder::Verification, "materials"),
];

/// A place under the repository's `data/` folder.
pub fn data(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../data").join(path)
}

/// Whether the run is to write its files anew (`BLESS=1`).
pub fn blessing() -> bool {
    std::env::var_os("BLESS").is_some_and(|v| v == "1")
}

/// Checks that a generated file is as it would be written today, or writes it when [`blessing`].
///
/// # Errors
/// A file that is not fresh, or cannot be read or written.
pub fn written_or_blessed(path: &std::path::Path, text: &str) -> Result<(), String> {
    if blessing() {
        return std::fs::write(path, text).map_err(|e| format!("{}: {e}", path.display()));
    }
    let there = std::fs::read_to_string(path).map_err(|e| format!("{}: {e}", path.display()))?;
    if there.replace("\r\n", "\n") == text {
        Ok(())
    } else {
        Err(format!(
            "{} is not fresh: run the tests once with BLESS=1 and look at what changed",
            path.display()
        ))
    }
}
