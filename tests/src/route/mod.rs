//! How a row is put to the public interface: a route's name and a quantity, inputs in, a number in SI out.

mod adm;
mod arch;
mod beam;
mod bond;
mod diaphragm;
mod element;
mod en1999;
mod foot;
mod joint;
mod laminate;
mod panel;
mod plate;
mod question;
mod rules;
mod table;
mod tube;
mod wrinkling;

use crate::inputs::Inputs;

/// What the library says for a row.
///
/// # Errors
/// An unknown route or quantity, an input that is missing, or a refusal of the library, in its own words.
pub fn answer(route: &str, quantity: &str, inputs: &Inputs) -> Result<f64, String> {
    match route {
        "tube" => tube::tube(quantity, inputs),
        "ring" => tube::ring(quantity, inputs),
        "adm constants" => element::constants(quantity, inputs),
        "adm element" => element::element(quantity, inputs),
        "adm tension" => adm::tension(quantity, inputs),
        "adm bending" => adm::bending(quantity, inputs),
        "adm compression" => adm::compression(quantity, inputs),
        "adm shear" => adm::shear(quantity, inputs),
        "adm crippling" => adm::crippling(inputs),
        "adm torsion" => adm::torque(inputs),
        "adm fastener" => joint::fastener(quantity, inputs),
        "adm screw" => joint::screw(quantity, inputs),
        "adm fatigue" => joint::fatigue(quantity, inputs),
        "adm combined" => adm::combined(inputs),
        "adm wall combined" => adm::wall_combined(inputs),
        "adm moment gradient" => adm::gradient(inputs),
        "sandwich beam" => beam::sandwich(quantity, inputs),
        "two tests" => beam::two_tests(quantity, inputs),
        "laminate" => laminate::laminate(quantity, inputs),
        "ply rule" => laminate::ply(quantity, inputs),
        "bond" => bond::bond(quantity, inputs),
        "arch" => arch::arch(quantity, inputs),
        "thin arch" => arch::thin(quantity, inputs),
        "shallow arch" => arch::shallow(quantity, inputs),
        "arch under pressure" => arch::pressure(inputs),
        "sine arch" => arch::sine(inputs),
        "lone tube" => question::tube(quantity, inputs),
        "lone brace" => question::brace(quantity, inputs),
        "plate on springs" => foot::springs(quantity, inputs),
        "strip on springs" => foot::strip(quantity, inputs),
        "skin on foam" => foot::layer(quantity, inputs),
        "punch" => foot::punch(quantity, inputs),
        "wrinkling" => wrinkling::wrinkling(quantity, inputs),
        "plate" => plate::plate(quantity, inputs),
        "panel between diaphragms" => diaphragm::crowned(quantity, inputs),
        "panel of layers" => panel::layers(quantity, inputs),
        "moisture" => rules::moisture(inputs),
        "foam" => rules::foam(quantity, inputs),
        "ponding" => rules::ponding(inputs),
        "channel" => rules::channel(inputs),
        "reading" => rules::reading(inputs),
        "frequency" => rules::frequency(inputs),
        "warm panel" => rules::warm_panel(inputs),
        "crown" => rules::crown(quantity, inputs),
        "EN 1999 part" => en1999::wall(quantity, inputs),
        "EN 1999 column" => en1999::column(quantity, inputs),
        "EN 1999 member" => en1999::member(quantity, inputs),
        "EN 1999 seat" => en1999::seat(inputs),
        "EN alloy" => table::en_alloy(quantity, inputs),
        other => Err(format!("no route \"{other}\"")),
    }
}

/// For a quantity that a route does not have.
fn unknown(quantity: &str) -> String {
    format!("the route has no quantity \"{quantity}\"")
}

/// A refusal of the library, in words.
fn words(error: impl std::fmt::Display) -> String {
    error.to_string()
}
