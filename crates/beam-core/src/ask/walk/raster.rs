//! Places on a regular raster, and how somebody stands on them.

use super::super::places::{FROM_A_CUT, edge_strip};
use crate::loads::{BasisLoad, Factors, Footing, person_basis};
use crate::model::{IdealRoof, Rect};
use crate::survey::Survey;

/// Lines of places across and along, m.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Raster {
    pub across: Vec<f64>,
    pub along: Vec<f64>,
}

impl Raster {
    /// A raster of at least `places` places over the part of a roof where somebody is tried: a foot's width from the
    /// walls, and away from where the model is cut.
    pub(crate) fn over(roof: &IdealRoof, factors: &Factors, places: usize) -> Raster {
        let half = factors.sole[0].min(factors.sole[1]) / 2.0;
        let cut = |held: bool| if held { half } else { FROM_A_CUT.min(roof.length / 4.0).max(half) };
        let (x0, x1) = (half.min(roof.span / 2.0), (roof.span - half).max(roof.span / 2.0));
        let (y0, y1) = (cut(roof.front_held), roof.length - cut(roof.rear_held));
        let y1 = y1.max(y0);
        let (wide, long) = (x1 - x0, y1 - y0);
        let ratio = if wide > 0.0 { (long / wide).max(0.02) } else { 1.0 };
        let columns = ((places as f64 / ratio).sqrt().ceil() as usize).max(2);
        let rows = places.div_ceil(columns).max(2);
        Raster { across: lines(x0, x1, columns), along: lines(y0, y1, rows) }
    }

    /// All places, row after row.
    pub(crate) fn places(&self) -> Vec<(f64, f64)> {
        self.along.iter().flat_map(|y| self.across.iter().map(move |x| (*x, *y))).collect()
    }

    /// Numbers of its places in an order that keeps neighbours together: loads in one place are solved faster.
    pub(crate) fn in_tiles(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.across.len() * self.along.len()).collect();
        order.sort_by_key(|k| {
            let (i, j) = (k % self.across.len(), k / self.across.len());
            (j / TILE, i / TILE, j, i)
        });
        order
    }
}

/// Side of a tile of places.
const TILE: usize = 4;

/// `count` lines from `from` to `to`, each mirrored by another.
fn lines(from: f64, to: f64, count: usize) -> Vec<f64> {
    let (middle, half) = ((from + to) / 2.0, (to - from) / 2.0);
    let last = (count - 1) as f64;
    (0..count).map(|k| middle + half * (2.0 * k as f64 - last) / last).collect()
}

/// How somebody stands: the survey with the board in question, and the patch on the roof with its long side along.
pub(crate) struct Stance<'a> {
    pub survey: &'a Survey,
    pub footing: Footing,
    pub patch: [f64; 2],
}

/// Somebody at a place, one way round.
#[derive(Debug, Clone)]
pub(crate) struct Person {
    /// Number of the place.
    pub place: usize,
    pub load: BasisLoad,
    pub footing: Footing,
    pub feet: Vec<Rect>,
}

impl Stance<'_> {
    /// Both ways round at a place; those that reach into the edge strip of an opening are left out.
    pub(crate) fn at(
        &self,
        roof: &IdealRoof,
        factors: &Factors,
        place: usize,
        (x, y): (f64, f64),
    ) -> Vec<Person> {
        let [short, long] = self.patch;
        let strip = edge_strip(roof);
        let mut out: Vec<Person> = Vec::new();
        for patch in [[short, long], [long, short]] {
            let load = person_basis(self.survey, factors, patch, x, y);
            let BasisLoad::Patches(patches) = &load else { continue };
            let feet: Vec<Rect> = patches.iter().map(|(rect, _)| *rect).collect();
            let clear = |r: &Rect| !roof.openings.iter().any(|o| reaches(r, o, strip));
            let known = out.iter().any(|p| p.feet == feet);
            if !known && feet.first().is_some_and(clear) {
                out.push(Person { place, load, footing: self.footing, feet });
            }
        }
        out
    }
}

/// Whether a patch reaches into the strip along the edge of an opening.
fn reaches(r: &Rect, o: &Rect, strip: f64) -> bool {
    r.x1 > o.x0 - strip + 1e-9
        && r.x0 < o.x1 + strip - 1e-9
        && r.y1 > o.y0 - strip + 1e-9
        && r.y0 < o.y1 + strip - 1e-9
}
