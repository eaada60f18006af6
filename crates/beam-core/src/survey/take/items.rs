//! Things with names: `[[opening]]`, `[[brace]]` and the like.

use super::{Context, Table, Take, Text, near};
use crate::survey::problem::Problem;
use crate::survey::tree::{Node, Value};

/// One named thing; `value` is `None` where it had a problem.
#[derive(Debug)]
pub(in crate::survey) struct Item<T> {
    /// Name.
    pub(in crate::survey) name: String,
    /// What was read.
    pub(in crate::survey) value: Option<T>,
}

/// All things of one kind, in the order of the file. Those with problems keep their place, so that a name is found
/// and an index holds.
#[derive(Debug)]
pub(in crate::survey) struct Items<T> {
    /// What one is called.
    pub(in crate::survey) what: &'static str,
    /// The things.
    pub(in crate::survey) list: Vec<Item<T>>,
    /// Whether some may be absent from the list because the file could not be understood: then a name that is not
    /// found is no problem of its own.
    pub(in crate::survey) incomplete: bool,
}

impl<T> Items<T> {
    /// Reads `[[key]]`; `read` takes one table apart, is told the name and sees the earlier ones.
    pub(in crate::survey) fn read(
        cx: &mut Context<'_>,
        root: &mut Table<'_>,
        key: &'static str,
        named: Naming,
        read: impl Fn(&mut Context<'_>, &mut Table<'_>, &str, &Items<T>) -> Option<T>,
    ) -> Self {
        let mut items = Items { what: key, list: Vec::new(), incomplete: false };
        let list = root.path_of(key);
        let Some(node) = root.node(key) else {
            return items;
        };
        let nodes = tables_of(cx, &list, node);
        items.incomplete = nodes.is_empty() && !matches!(node.value, Value::Array(_));
        for (index, node) in nodes.iter().enumerate() {
            let Some(mut table) = Table::open(cx, &format!("{list}.{}", index + 1), node) else {
                items.incomplete = true;
                continue;
            };
            let name = match named {
                Naming::Key => items.name(cx, &mut table, index),
                Naming::None => format!("{key} {}", index + 1),
            };
            let value = read(cx, &mut table, &name, &items);
            table.close(cx);
            items.push(name, value);
        }
        items
    }

    /// Adds one that does not stand in the file by itself.
    pub(in crate::survey) fn push(&mut self, name: String, value: Option<T>) {
        self.list.push(Item { name, value });
    }

    /// The name of one; where none is given, its kind and number.
    fn name(&mut self, cx: &mut Context<'_>, table: &mut Table<'_>, index: usize) -> String {
        let counted = format!("{} {}", self.what, index + 1);
        let name = match table.optional(cx, "name", &Text) {
            Some(Some(name)) => name,
            Some(None) => {
                let words = format!("it has no name in the survey and is called \"{counted}\"");
                cx.default(&table.path_of("name"), None, "default-name", words);
                return counted;
            }
            None => {
                self.incomplete = true;
                return counted;
            }
        };
        if self.list.iter().any(|item| item.name == name) {
            cx.problem(
                Problem::new(
                    "name-doubled",
                    table.span_of("name"),
                    format!("two of `{}` are called \"{name}\"", self.what),
                )
                .value(&name)
                .allowed("each name once")
                .write(format!("another name, such as \"{name} 2\"")),
            );
        }
        name
    }

    /// The index of the one called as the node says.
    pub(in crate::survey) fn find(&self, cx: &mut Context<'_>, path: &str, node: &Node) -> Option<usize> {
        let name = Text.take(cx, path, node)?;
        let found = self.list.iter().position(|item| item.name == name);
        if found.is_none() && !self.incomplete {
            let names = self.list.iter().map(|item| item.name.as_str());
            cx.name_unknown(path, node, &name, self.what, names.collect());
        }
        found
    }

    /// The indices of those called as a list says, each once.
    pub(in crate::survey) fn find_all(
        &self,
        cx: &mut Context<'_>,
        path: &str,
        node: &Node,
    ) -> Option<Vec<usize>> {
        let nodes = cx.list(path, node)?;
        let mut found = Some(Vec::new());
        for (index, node) in nodes.iter().enumerate() {
            let one = self.find(cx, &format!("{path}.{}", index + 1), node);
            found = match (found, one) {
                (Some(mut all), Some(one)) => {
                    if !all.contains(&one) {
                        all.push(one);
                    }
                    Some(all)
                }
                _ => None,
            };
        }
        found
    }

    /// All values, if none had a problem.
    pub(in crate::survey) fn into_values(self) -> Option<Vec<T>> {
        self.list.into_iter().map(|item| item.value).collect()
    }

    /// Those read without a problem, with their index.
    pub(in crate::survey) fn values(&self) -> impl Iterator<Item = (usize, &Item<T>, &T)> {
        self.list
            .iter()
            .enumerate()
            .filter_map(|(at, item)| item.value.as_ref().map(|value| (at, item, value)))
    }
}

/// Whether things of a kind carry names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::survey) enum Naming {
    /// By their key `name`.
    Key,
    /// They have none.
    None,
}

/// A list of tables; one table alone is a list of one.
fn tables_of<'n>(cx: &mut Context<'_>, key: &str, node: &'n Node) -> &'n [Node] {
    match &node.value {
        Value::Array(nodes) => nodes,
        Value::Table(_) => std::slice::from_ref(node),
        _ => {
            cx.wrong_kind(key, node, "a list of tables", &format!("a [[{key}]] line, its keys below"));
            &[]
        }
    }
}

impl Context<'_> {
    /// A list; anything else is a problem.
    pub(in crate::survey) fn list<'n>(&mut self, path: &str, node: &'n Node) -> Option<&'n [Node]> {
        if let Value::Array(nodes) = &node.value {
            return Some(nodes);
        }
        self.wrong_kind(path, node, "a list", "the values between [ and ]");
        None
    }

    /// Records that nothing is called so.
    pub(in crate::survey) fn name_unknown(
        &mut self,
        path: &str,
        node: &Node,
        name: &str,
        what: &str,
        known: Vec<&str>,
    ) {
        let guess = near(name, known.iter().copied());
        let message = match &guess {
            Some(guess) => format!("`{path}`: no {what} is called \"{name}\"; did you mean \"{guess}\"?"),
            None => format!("`{path}`: no {what} is called \"{name}\""),
        };
        let allowed = match known.as_slice() {
            [] => format!("the name of a {what}; this survey has none"),
            known => known.iter().map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(", "),
        };
        let instead = match guess {
            Some(guess) => format!("\"{guess}\""),
            None => format!("one of the names above, or add a [[{what}]] of that name"),
        };
        self.problem(
            Problem::new("name-unknown", node.span.clone(), message)
                .value(name)
                .allowed(allowed)
                .write(instead),
        );
    }
}
