//! From a list of elements to the pattern of the matrix, and to the place of each of their entries in it.

use super::factor::Pattern;

/// Marks what is held or not there.
pub(crate) const NONE: u32 = u32::MAX;

/// Elements: which unknowns each one joins, and which matrix it takes.
#[derive(Debug, Default)]
pub(crate) struct ElementList {
    /// Full unknowns of all elements, one after the other.
    pub(crate) unknowns: Vec<u32>,
    /// Where each element's unknowns begin, and the matrix it takes.
    pub(crate) elements: Vec<(u32, u32)>,
    nodes: Vec<Vec<usize>>,
}

impl ElementList {
    /// Adds an element on `nodes`, with the same number of unknowns at each.
    pub(crate) fn push(&mut self, unknowns: impl Iterator<Item = u32>, nodes: &[usize], matrix: usize) {
        self.elements.push((self.unknowns.len() as u32, matrix as u32));
        self.unknowns.extend(unknowns);
        self.nodes.push(nodes.to_vec());
    }

    /// Full unknowns of one element.
    pub(crate) fn element(&self, element: usize) -> &[u32] {
        let from = self.elements[element].0 as usize;
        let to = self.elements.get(element + 1).map_or(self.unknowns.len(), |e| e.0 as usize);
        &self.unknowns[from..to]
    }

    /// Pairs of positions (lower first) that some element joins, sorted.
    pub(crate) fn neighbours(&self, position: &[u32]) -> Vec<(u32, u32)> {
        let mut pairs = Vec::with_capacity(6 * self.nodes.len());
        for nodes in &self.nodes {
            for (k, &a) in nodes.iter().enumerate() {
                for &b in &nodes[k + 1..] {
                    let (a, b) = (position[a], position[b]);
                    pairs.push((a.min(b), a.max(b)));
                }
            }
        }
        pairs.sort_unstable();
        pairs.dedup();
        pairs
    }

    /// For every entry of every element's packed triangle, its place among the matrix's values.
    pub(crate) fn scatter(
        &self,
        unknown_of: &[u32],
        position: &[u32],
        groups: &Groups,
        pattern: &Pattern,
    ) -> Vec<u32> {
        let unused = pattern.rows.len() as u32;
        let mut scatter = Vec::new();
        for (element, nodes) in self.nodes.iter().enumerate() {
            let unknowns: Vec<u32> = self.element(element).iter().map(|&f| unknown_of[f as usize]).collect();
            let each = unknowns.len() / nodes.len();
            let mut offset = [[0usize; 4]; 4];
            for (a, &first) in nodes.iter().enumerate() {
                for (b, &second) in nodes.iter().enumerate() {
                    offset[a][b] = groups.offset(position[first], position[second]);
                }
            }
            for i in 0..unknowns.len() {
                for j in 0..=i {
                    let (low, high) = if unknowns[i] < unknowns[j] { (i, j) } else { (j, i) };
                    let (column, row) = (unknowns[low], unknowns[high]);
                    scatter.push(if row == NONE || column == NONE {
                        unused
                    } else {
                        let group = position[nodes[low / each]] as usize;
                        let own_end = groups.start[group + 1];
                        let column = column as usize;
                        let base = pattern.column_start[column];
                        if position[nodes[high / each]] as usize == group {
                            (base + row as usize - column) as u32
                        } else {
                            let other = groups.start[position[nodes[high / each]] as usize];
                            (base + own_end - column + offset[low / each][high / each] + row as usize - other)
                                as u32
                        }
                    });
                }
            }
        }
        scatter
    }
}

/// Unknowns grouped by node, and which later groups each one meets.
pub(crate) struct Groups {
    start: Vec<usize>,
    /// First pair of each group.
    first: Vec<usize>,
    /// Later neighbours, by group, ascending, each with the number of unknowns before it in the column.
    later: Vec<(u32, usize)>,
}

impl Groups {
    /// Groups that begin at `start`, and the pairs of them that some element joins.
    pub(crate) fn new(start: Vec<usize>, pairs: Vec<(u32, u32)>) -> Self {
        let count = start.len() - 1;
        let mut first = vec![0; count + 1];
        for &(low, _) in &pairs {
            first[low as usize + 1] += 1;
        }
        for group in 0..count {
            first[group + 1] += first[group];
        }
        let mut later = Vec::with_capacity(pairs.len());
        for group in 0..count {
            let mut before = 0;
            for &(_, high) in &pairs[first[group]..first[group + 1]] {
                later.push((high, before));
                before += start[high as usize + 1] - start[high as usize];
            }
        }
        Self { start, first, later }
    }

    /// Unknowns of earlier neighbours between the end of group `low` and group `high` in a column.
    fn offset(&self, low: u32, high: u32) -> usize {
        let later = &self.later[self.first[low as usize]..self.first[low as usize + 1]];
        later.binary_search_by_key(&high, |&(group, _)| group).map_or(0, |at| later[at].1)
    }

    /// Pattern of the lower triangle: within a group, and with every later neighbour, all entries.
    pub(crate) fn pattern(&self) -> Pattern {
        let mut column_start = vec![0];
        let mut rows = Vec::new();
        for group in 0..self.start.len() - 1 {
            let end = self.start[group + 1];
            for column in self.start[group]..end {
                rows.extend(column..end);
                for &(high, _) in &self.later[self.first[group]..self.first[group + 1]] {
                    rows.extend(self.start[high as usize]..self.start[high as usize + 1]);
                }
                column_start.push(rows.len());
            }
        }
        Pattern { column_start, rows }
    }
}
