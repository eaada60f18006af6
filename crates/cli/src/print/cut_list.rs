//! The cut list as CSV: millimetres, degrees, kilograms, one row a brace or trimmer.

use beam_core::ask::CutRow;
use beam_core::check::Finite;

const HEADINGS: [&str; 21] = [
    "mark",
    "tube",
    "alloy",
    "along_mm",
    "across_mm",
    "between",
    "cut_length_mm",
    "finished_length_mm",
    "trim_each_end_mm",
    "end_angle_deg",
    "holes_each_end",
    "hole_mm",
    "hole_from_end_mm",
    "mass_kg",
    "channel_depth_mm",
    "channel_width_mm",
    "foam_left_mm",
    "glue_area_cm2",
    "glue_volume_cm3",
    "stations_mm",
    "offsets_mm",
];

/// The rows with their headings.
pub(crate) fn csv(rows: &[CutRow]) -> String {
    let mut out = HEADINGS.join(",");
    out.push('\n');
    for row in rows {
        out.push_str(&cells(row).join(","));
        out.push('\n');
    }
    out
}

fn cells(row: &CutRow) -> [String; HEADINGS.len()] {
    let mm = |length: Finite| format!("{:.1}", length.get() * 1e3);
    let or_none = |length: Option<Finite>| length.map_or_else(String::new, mm);
    let list = |of: fn(&beam_core::ask::bend::Station) -> Finite| {
        row.stations.iter().map(|s| mm(of(s))).collect::<Vec<_>>().join(" ")
    };
    [
        row.mark.clone(),
        row.tube.clone(),
        row.alloy.clone(),
        mm(row.along),
        or_none(row.across),
        row.between.join(" "),
        mm(row.cut_length),
        mm(row.finished_length),
        mm(row.trim),
        format!("{:.2}", row.end_angle.get().to_degrees()),
        row.holes_each_end.to_string(),
        or_none(row.hole),
        or_none(row.hole_from_end),
        format!("{:.3}", row.mass.get()),
        or_none(row.channel_depth),
        or_none(row.channel_width),
        or_none(row.foam_left),
        format!("{:.1}", row.glue_area.get() * 1e4),
        format!("{:.1}", row.glue_volume.get() * 1e6),
        list(|s| s.along_chord),
        list(|s| s.offset),
    ]
}
