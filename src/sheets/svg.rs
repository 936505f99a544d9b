//! A sheet as SVG: millimetres, text as text, marks of one layer in groups.

use std::fmt::Write as _;

use base64::Engine as _;

use crate::sheets::check::check;
use crate::sheets::error::SheetError;
use crate::sheets::fonts::Face;
use crate::sheets::mark::{Arc, Area, Circle, Ends, Finish, Mark, Picture, Polyline, Shape, Sheet};
use crate::sheets::metadata::{CREATOR, Metadata};
use crate::sheets::number::decimal;
use crate::sheets::oriented_box::OrientedBox;
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, LineKind, Pen};
use crate::sheets::text::Text;

/// The sheet as an SVG document, one user unit to the millimetre.
///
/// Text stays text. It names the family that it was measured with and states its
/// length, so that a viewer without that family squeezes another one into its place.
///
/// # Errors
/// If a coordinate can't be drawn.
pub fn svg(sheet: &Sheet, about: &Metadata) -> Result<String, SheetError> {
    check(sheet)?;
    let mut out = String::new();
    head(&mut out, sheet, about);
    let mut rest = &sheet.marks[..];
    while let Some(first) = rest.first() {
        let alike = |mark: &Mark| (mark.layer, mark.viewport) == (first.layer, first.viewport);
        let n_alike = rest.iter().take_while(|mark| alike(mark)).count();
        let (group, later) = rest.split_at(n_alike);
        rest = later;
        let clip = first.viewport.map_or(String::new(), |id| {
            format!(" clip-path=\"url(#view-{})\"", id.0)
        });
        line(
            &mut out,
            format_args!("<g class=\"{}\"{clip}>", first.layer.name()),
        );
        for mark in group {
            draw_mark(&mut out, mark);
        }
        line(&mut out, format_args!("</g>"));
    }
    line(&mut out, format_args!("</g>\n</svg>"));
    Ok(out)
}

/// Appends a line. Writing to a string can't fail.
fn line(out: &mut String, text: std::fmt::Arguments<'_>) {
    writeln!(out, "{text}").expect("a string takes everything");
}

/// A length in millimetres, to a tenth of a micrometre.
fn mm(value: f64) -> String {
    decimal(value, 4)
}

fn head(out: &mut String, sheet: &Sheet, about: &Metadata) {
    let width = mm(sheet.size.width_mm());
    let height = mm(sheet.size.height_mm());
    line(
        out,
        format_args!(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
             <svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{width}mm\" \
             height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">"
        ),
    );
    let title = match about.title.as_str() {
        "" => sheet.title.clone(),
        set => format!("{set}: {}", sheet.title),
    };
    line(out, format_args!("<title>{}</title>", escaped(&title)));
    let mut words = vec![format!("Made by {CREATOR}.")];
    if !about.subject.is_empty() {
        words.insert(0, about.subject.clone());
    }
    if let Some(date) = about.issued {
        words.push(format!("Issued {date}."));
    }
    line(
        out,
        format_args!("<desc>{}</desc>", escaped(&words.join(" "))),
    );
    if !sheet.viewports.is_empty() {
        line(out, format_args!("<defs>"));
        for (index, viewport) in sheet.viewports.iter().enumerate() {
            let window = viewport.window;
            line(
                out,
                format_args!(
                    "<clipPath id=\"view-{index}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/></clipPath>",
                    mm(window.left),
                    mm(window.top),
                    mm(window.width_mm()),
                    mm(window.height_mm())
                ),
            );
        }
        line(out, format_args!("</defs>"));
    }
    line(
        out,
        format_args!("<rect width=\"{width}\" height=\"{height}\" fill=\"#ffffff\"/>"),
    );
    line(
        out,
        format_args!(
            "<g fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"miter\" stroke-miterlimit=\"4\">"
        ),
    );
}

fn draw_mark(out: &mut String, mark: &Mark) {
    if let Some(subject) = &mark.subject {
        line(
            out,
            format_args!("<g data-subject=\"{}\">", escaped(subject)),
        );
    }
    match &mark.shape {
        Shape::Symbol(used) => {
            line(
                out,
                format_args!("<g data-symbol=\"{}\">", escaped(&used.symbol.name)),
            );
            for (shape, ink) in used.drawn(mark.ink) {
                draw_shape(out, &shape, ink);
            }
            line(out, format_args!("</g>"));
        }
        shape => draw_shape(out, shape, mark.ink),
    }
    if mark.subject.is_some() {
        line(out, format_args!("</g>"));
    }
}

fn draw_shape(out: &mut String, shape: &Shape, ink: Ink) {
    match shape {
        Shape::Polyline(polyline) => draw_polyline(out, polyline, ink),
        Shape::Area(area) => draw_area(out, area, ink),
        Shape::Circle(circle) => draw_circle(out, circle, ink),
        Shape::Arc(arc) => draw_arc(out, arc, ink),
        Shape::Hatch(hatch) => {
            let path: String = hatch
                .lines()
                .iter()
                .map(|ends| path_data(ends, Ends::Open))
                .collect();
            if !path.is_empty() {
                line(
                    out,
                    format_args!("<path d=\"{path}\"{}/>", stroke(hatch.pen, ink)),
                );
            }
        }
        Shape::Text(text) => draw_text(out, text, ink),
        Shape::Picture(picture) => draw_picture(out, picture),
        // Taken apart by the caller.
        Shape::Symbol(_) => {}
    }
}

fn draw_polyline(out: &mut String, polyline: &Polyline, ink: Ink) {
    if 1 < polyline.points.len() {
        let path = path_data(&polyline.points, polyline.ends);
        line(
            out,
            format_args!("<path d=\"{path}\"{}/>", stroke(polyline.pen, ink)),
        );
    }
}

fn draw_area(out: &mut String, area: &Area, ink: Ink) {
    let path: String = area
        .rings()
        .map(|ring| path_data(ring, Ends::Closed))
        .collect();
    if !path.is_empty() {
        line(
            out,
            format_args!("<path d=\"{path}\"{} fill-rule=\"evenodd\"/>", fill(ink)),
        );
    }
}

fn draw_circle(out: &mut String, circle: &Circle, ink: Ink) {
    let look = match circle.finish {
        Finish::Drawn(pen) => stroke(pen, ink),
        Finish::Filled => fill(ink),
    };
    let (x, y) = (mm(circle.centre.x), mm(circle.centre.y));
    line(
        out,
        format_args!(
            "<circle cx=\"{x}\" cy=\"{y}\" r=\"{}\"{look}/>",
            mm(circle.radius_mm.abs())
        ),
    );
}

fn draw_arc(out: &mut String, arc: &Arc, ink: Ink) {
    let look = stroke(arc.pen, ink);
    if 360.0 <= arc.sweep_degrees.abs() {
        let (x, y) = (mm(arc.centre.x), mm(arc.centre.y));
        let radius = mm(arc.radius_mm.abs());
        line(
            out,
            format_args!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"{look}/>"),
        );
        return;
    }
    let [from, to] = arc.tips();
    let radius = mm(arc.radius_mm.abs());
    let large = u8::from(180.0 < arc.sweep_degrees.abs());
    // In SVG positive means clockwise as seen.
    let sweep = u8::from(arc.sweep_degrees < 0.0);
    line(
        out,
        format_args!(
            "<path d=\"M{} {}A{radius} {radius} 0 {large} {sweep} {} {}\"{look}/>",
            mm(from.x),
            mm(from.y),
            mm(to.x),
            mm(to.y)
        ),
    );
}

fn draw_text(out: &mut String, text: &Text, ink: Ink) {
    if let Some(cleared) = text.cleared_box() {
        draw_box(out, cleared, Ink::Paper);
    }
    if text.content().trim().is_empty() {
        return;
    }
    let lettering = text.lettering();
    let (family, weight, stretch) = match lettering.face {
        Face::Regular => ("'DejaVu Sans',sans-serif", "", ""),
        Face::Bold => ("'DejaVu Sans',sans-serif", " font-weight=\"bold\"", ""),
        Face::Condensed => (
            "'DejaVu Sans Condensed','DejaVu Sans',sans-serif",
            "",
            " font-stretch=\"condensed\"",
        ),
    };
    let (x, y) = (mm(text.start().x), mm(text.start().y));
    let turn = match decimal(-text.turn_degrees(), 6).as_str() {
        "0" => String::new(),
        degrees => format!(" transform=\"rotate({degrees} {x} {y})\""),
    };
    line(
        out,
        format_args!(
            "<text x=\"{x}\" y=\"{y}\"{turn} font-family=\"{family}\"{weight}{stretch} font-size=\"{}\" \
             textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"{} xml:space=\"preserve\">{}</text>",
            mm(lettering.em_mm()),
            mm(text.advance_mm()),
            fill(ink),
            escaped(text.content())
        ),
    );
}

fn draw_box(out: &mut String, area: OrientedBox, ink: Ink) {
    let path = path_data(&area.corners(), Ends::Closed);
    line(out, format_args!("<path d=\"{path}\"{}/>", fill(ink)));
}

fn draw_picture(out: &mut String, picture: &Picture) {
    let place = picture.place;
    line(
        out,
        format_args!(
            "<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" preserveAspectRatio=\"none\" \
             xmlns:xlink=\"http://www.w3.org/1999/xlink\" xlink:href=\"data:image/png;base64,{}\"/>",
            mm(place.left),
            mm(place.top),
            mm(place.width_mm()),
            mm(place.height_mm()),
            base64::engine::general_purpose::STANDARD.encode(&picture.png)
        ),
    );
}

/// The points as path data; nothing for fewer than two.
fn path_data(points: &[PaperPoint], ends: Ends) -> String {
    let mut path = String::new();
    if points.len() < 2 {
        return path;
    }
    for (index, point) in points.iter().enumerate() {
        path.push(if index == 0 { 'M' } else { 'L' });
        path.push_str(&mm(point.x));
        path.push(' ');
        path.push_str(&mm(point.y));
    }
    if ends == Ends::Closed {
        path.push('Z');
    }
    path
}

fn colour(ink: Ink) -> String {
    let [red, green, blue] = ink.rgb();
    format!("#{red:02x}{green:02x}{blue:02x}")
}

fn fill(ink: Ink) -> String {
    format!(" fill=\"{}\"", colour(ink))
}

/// The pen is round, as the patterns of broken lines assume.
fn stroke(pen: Pen, ink: Ink) -> String {
    let mut look = format!(
        " stroke=\"{}\" stroke-width=\"{}\"",
        colour(ink),
        mm(pen.width.mm())
    );
    if pen.kind != LineKind::Continuous {
        let pattern: Vec<String> = pen.pattern_mm().into_iter().map(mm).collect();
        look.push_str(&format!(" stroke-dasharray=\"{}\"", pattern.join(" ")));
    }
    look
}

/// The text with what XML reserves replaced, and what XML can't hold left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            c if c.is_control() || c == '\u{fffe}' || c == '\u{ffff}' => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_xml_reserves_is_escaped() {
        assert_eq!(
            escaped("a<b & \"c\"\u{0}'\n"),
            "a&lt;b &amp; &quot;c&quot;&#39; "
        );
    }

    #[test]
    fn dashes_have_their_length_in_millimetres() {
        let pen = Pen::of(crate::sheets::pen::PenWidth::W025, LineKind::Dashed);
        assert_eq!(
            stroke(pen, Ink::Black),
            " stroke=\"#000000\" stroke-width=\"0.25\" stroke-dasharray=\"2.75 1\""
        );
    }
}
