//! Elimination order of the grid's nodes: nested dissection by grid lines.
//!
//! A rectangle of nodes is cut by the line that halves the nodes in it, across its longer side; both halves
//! come first, the line last. Nodes of one cell are never on both sides of a line, so neither are the
//! unknowns they carry.
//!
//! # References
//! George (1973), nested dissection of a regular finite element mesh (from memory).

/// Rectangles with at most this many nodes are not cut further.
const LEAF: usize = 6;

/// The active nodes of an `nx` by `ny` grid of nodes (node `j * nx + i`) in elimination order.
pub(crate) fn nested_dissection(nx: usize, ny: usize, active: &[bool]) -> Vec<usize> {
    let mut order = Vec::with_capacity(active.len());
    dissect(&Nodes { nx, active }, [0, nx], [0, ny], &mut order);
    order
}

struct Nodes<'a> {
    nx: usize,
    active: &'a [bool],
}

impl Nodes<'_> {
    fn in_rectangle(&self, i: [usize; 2], j: [usize; 2]) -> impl Iterator<Item = usize> + '_ {
        (j[0]..j[1])
            .flat_map(move |row| (i[0]..i[1]).map(move |column| row * self.nx + column))
            .filter(|&node| self.active[node])
    }
}

fn dissect(nodes: &Nodes<'_>, i: [usize; 2], j: [usize; 2], order: &mut Vec<usize>) {
    let total = nodes.in_rectangle(i, j).count();
    let across = i[1] - i[0] >= j[1] - j[0];
    let longer = if across { i } else { j };
    if total <= LEAF || longer[1] - longer[0] < 3 {
        order.extend(nodes.in_rectangle(i, j));
        return;
    }
    let part = |from: usize, to: usize| if across { ([from, to], j) } else { (i, [from, to]) };
    let mut seen = 0;
    let mut cut = longer[0] + 1;
    for line in longer[0]..longer[1] - 1 {
        let (i, j) = part(line, line + 1);
        seen += nodes.in_rectangle(i, j).count();
        cut = line.max(longer[0] + 1);
        if 2 * seen >= total {
            break;
        }
    }
    for (from, to) in [(longer[0], cut), (cut + 1, longer[1]), (cut, cut + 1)] {
        let (i, j) = part(from, to);
        if (from, to) == (cut, cut + 1) {
            order.extend(nodes.in_rectangle(i, j));
        } else {
            dissect(nodes, i, j, order);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_active_node_comes_once() {
        let (nx, ny) = (13, 9);
        let active: Vec<bool> = (0..nx * ny).map(|n| n % 7 != 3).collect();
        let mut order = nested_dissection(nx, ny, &active);
        order.sort_unstable();
        let wanted: Vec<usize> = (0..nx * ny).filter(|&n| active[n]).collect();
        assert_eq!(order, wanted);
    }

    #[test]
    fn the_last_line_cuts_the_grid() {
        let order = nested_dissection(9, 5, &[true; 45]);
        let last: Vec<usize> = order[40..].iter().map(|n| n % 9).collect();
        assert!(last.iter().all(|&column| column == last[0]));
        assert!((3..=5).contains(&last[0]));
    }
}
