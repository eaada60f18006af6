//! Plain numbers: shares, factors, counts.

use super::{Context, Take};
use crate::quantity::{Headers, Measure, read};
use crate::survey::problem::Problem;
use crate::survey::tree::{Node, Value};

/// A number without a unit within bounds, both allowed.
#[derive(Debug, Clone, Copy)]
pub(in crate::survey) struct Number {
    /// Least.
    pub(in crate::survey) from: f64,
    /// Most.
    pub(in crate::survey) to: f64,
    /// Unit recorded with it, if the key says one.
    pub(in crate::survey) unit: &'static str,
}

impl Number {
    /// A share: 0 to 1.
    pub(in crate::survey) const SHARE: Number = Number::between(0.0, 1.0);

    pub(in crate::survey) const fn between(from: f64, to: f64) -> Self {
        Number { from, to, unit: "" }
    }

    pub(in crate::survey) const fn in_unit(self, unit: &'static str) -> Self {
        Number { unit, ..self }
    }
}

impl Take<f64> for Number {
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<f64> {
        let (Value::Number(text) | Value::Text(text)) = &node.value else {
            cx.wrong_kind(path, node, "a number", "a number such as 0.5");
            return None;
        };
        let number = match read(text, Measure::Ratio, Headers::default()) {
            Ok(number) => number,
            Err(error) => {
                cx.quantity_problem(path, node, text, &error);
                return None;
            }
        };
        if !(self.from..=self.to).contains(&number) {
            let allowed = format!("{} to {}", self.from, self.to);
            cx.problem(
                Problem::new("number-out-of-bounds", node.span.clone(), format!("`{path}` is {text}"))
                    .value(text)
                    .write(format!("a number from {allowed}"))
                    .allowed(allowed),
            );
            return None;
        }
        cx.given(path, node, text, Some((number, self.unit)));
        Some(number)
    }
}

/// A whole number within bounds, both allowed.
#[derive(Debug, Clone, Copy)]
pub(in crate::survey) struct Whole {
    /// Least.
    pub(in crate::survey) from: u32,
    /// Most.
    pub(in crate::survey) to: u32,
}

impl Take<u32> for Whole {
    fn take(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<u32> {
        let (Value::Number(text) | Value::Text(text)) = &node.value else {
            cx.wrong_kind(path, node, "a whole number", "a whole number such as 2");
            return None;
        };
        match text.trim().parse::<u32>() {
            Ok(number) if (self.from..=self.to).contains(&number) => {
                cx.given(path, node, text, Some((f64::from(number), "")));
                Some(number)
            }
            _ => {
                let allowed = format!("a whole number from {} to {}", self.from, self.to);
                cx.problem(
                    Problem::new("number-out-of-bounds", node.span.clone(), format!("`{path}` is {text}"))
                        .value(text)
                        .allowed(&allowed)
                        .write(&allowed),
                );
                None
            }
        }
    }
}
