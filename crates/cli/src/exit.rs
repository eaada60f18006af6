//! Exit status: what a script that calls the program is promised.

use std::process::ExitCode;

use beam_core::check::Verdict;

/// The five ways a run can end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Exit {
    /// What was asked holds, or was found.
    Holds,
    /// It does not.
    DoesNotHold,
    /// It cannot be said.
    CannotSay,
    /// The input or the command line is wrong; nothing was computed.
    WrongInput,
    /// Computed, but the answer could not be written.
    NotWritten,
}

impl Exit {
    fn code(self) -> u8 {
        match self {
            Exit::Holds => 0,
            Exit::DoesNotHold => 1,
            Exit::CannotSay => 2,
            Exit::WrongInput => 3,
            Exit::NotWritten => 4,
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> ExitCode {
        ExitCode::from(exit.code())
    }
}

impl From<Verdict> for Exit {
    fn from(verdict: Verdict) -> Exit {
        match verdict {
            Verdict::Holds => Exit::Holds,
            Verdict::CannotSay => Exit::CannotSay,
            Verdict::BraceNeeded | Verdict::BraceTooWeak | Verdict::DoesNotHold | Verdict::OnlyOnABoard => {
                Exit::DoesNotHold
            }
        }
    }
}
