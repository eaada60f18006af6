//! Feet pressed in before: in a walk the same foot is asked about on the same skins over and over, on one board after the
//! other and at one group of places after the other.

use std::sync::{Mutex, PoisonError};

use super::foot::OnRigidBed;
use crate::local::{Below, Layer, Patch, PlateD};

/// A foot that is pressed in, either way round.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Pressing {
    /// The skin first, then the board.
    pub plates: Vec<PlateD>,
    pub foam: Layer,
    pub below: Below,
    pub patch: Patch,
}

/// What came of feet, of one kind of question.
#[derive(Debug)]
pub(super) struct Answers<K, T>(Mutex<Vec<(K, T)>>);

// Nothing is known at first, whatever the answers are.
impl<K, T> Default for Answers<K, T> {
    fn default() -> Self {
        Self(Mutex::default())
    }
}

impl<K: PartialEq, T: Copy> Answers<K, T> {
    /// The answer for a foot, worked out where it was not asked about before. One that could not be given is asked for
    /// again.
    ///
    /// # Errors
    /// As `work`.
    pub(super) fn of(&self, asked: K, work: impl FnOnce(&K) -> Result<T, String>) -> Result<T, String> {
        let known = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, answer)) = known().iter().find(|(other, _)| *other == asked) {
            return Ok(*answer);
        }
        let answer = work(&asked)?;
        known().push((asked, answer));
        Ok(answer)
    }
}

/// What is known of feet on one roof.
#[derive(Debug, Default)]
pub(crate) struct Pressed {
    /// Largest stress in the foam under a sole, Pa.
    pub(super) dents: Answers<Pressing, f64>,
    /// With the stress at which the foam yields, Pa: the skin under a heel on a bed that does not move; and its moments, across and along, on sound foam over a lower
    /// skin that does, N.
    pub(super) heels: Answers<(Pressing, f64), (OnRigidBed, [f64; 2])>,
    /// Moments in a board that lies on the skin, across and along, N.
    pub(super) boards: Answers<Pressing, [f64; 2]>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_foot_is_pressed_in_once_and_another_is_another() {
        let foot = |load: f64| Pressing {
            plates: vec![PlateD::thin(100.0, 80.0, 10.0, 30.0)],
            foam: Layer::new(4e6, 0.2, 0.05).unwrap(),
            below: Below::Rigid,
            patch: Patch { load, across: 0.1, along: 0.25 },
        };
        let answers = Answers::default();
        assert_eq!(answers.of(foot(800.0), |_| Err("no".to_owned())), Err("no".to_owned()));
        assert_eq!(answers.of(foot(800.0), |p| Ok(p.patch.load)), Ok(800.0));
        assert_eq!(answers.of(foot(800.0), |_| panic!("known")), Ok(800.0));
        assert_eq!(answers.of(foot(900.0), |p| Ok(p.patch.load)), Ok(900.0));
    }
}
