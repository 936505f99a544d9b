//! Symbols: what is drawn alike in many places.

use std::sync::Arc;

use crate::geometry::DVec2;
use crate::sheets::mark::Shape;
use crate::sheets::paper::{PaperPoint, turned};
use crate::sheets::pen::Ink;
use crate::sheets::text::Text;

/// A drawing that is repeated: a hanger, a burner, a grid bubble. Files that know
/// blocks hold it once.
#[derive(Debug, Clone, PartialEq)]
pub struct Symbol {
    /// Its name, unique for its drawing: `HANGER-PANEL`. Capitals, digits and hyphens.
    pub name: String,
    /// What it is drawn of, round the origin, mm, y down.
    pub parts: Vec<Part>,
}

/// One form of a symbol.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Its form; not a symbol in its turn.
    pub shape: Shape,
    /// Its colour; none takes that of the mark that uses the symbol.
    pub ink: Option<Ink>,
}

impl Part {
    /// In the ink of the mark that uses the symbol.
    #[must_use]
    pub fn new(shape: impl Into<Shape>) -> Self {
        Self {
            shape: shape.into(),
            ink: None,
        }
    }

    /// In an ink of its own.
    #[must_use]
    pub fn inked(shape: impl Into<Shape>, ink: Ink) -> Self {
        Self {
            shape: shape.into(),
            ink: Some(ink),
        }
    }
}

/// What a field of a symbol says.
#[derive(Debug, Clone, PartialEq)]
pub enum FieldText {
    /// A text on the sheet, in paper coordinates.
    Shown(Text),
    /// Kept in files that can hold it, not drawn.
    Hidden(String),
}

/// A named value that goes with one use of a symbol, such as the number of a hanger.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// Its name: `ID`, `MEMBER`. Capitals, digits and hyphens.
    pub tag: String,
    /// Its value.
    pub text: FieldText,
}

/// A symbol at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct SymbolUse {
    /// What is drawn.
    pub symbol: Arc<Symbol>,
    /// Where its origin lies.
    pub at: PaperPoint,
    /// How far it is turned, degrees anticlockwise as seen.
    pub turn_degrees: f64,
    /// What goes with it.
    pub fields: Vec<Field>,
}

impl SymbolUse {
    /// The symbol with its origin at the point, not turned, without fields.
    #[must_use]
    pub fn new(symbol: &Arc<Symbol>, at: PaperPoint) -> Self {
        Self {
            symbol: Arc::clone(symbol),
            at,
            turn_degrees: 0.0,
            fields: Vec::new(),
        }
    }

    /// Turned by degrees anticlockwise as seen.
    #[must_use]
    pub fn turned(mut self, degrees: f64) -> Self {
        self.turn_degrees = degrees;
        self
    }

    /// With a text that is drawn.
    #[must_use]
    pub fn showing(mut self, tag: &str, text: Text) -> Self {
        self.fields.push(Field {
            tag: tag.to_owned(),
            text: FieldText::Shown(text),
        });
        self
    }

    /// With a value that is kept but not drawn.
    #[must_use]
    pub fn keeping(mut self, tag: &str, value: &str) -> Self {
        self.fields.push(Field {
            tag: tag.to_owned(),
            text: FieldText::Hidden(value.to_owned()),
        });
        self
    }

    /// The texts that it shows.
    pub fn shown(&self) -> impl Iterator<Item = &Text> {
        self.fields.iter().filter_map(|field| match &field.text {
            FieldText::Shown(text) => Some(text),
            FieldText::Hidden(_) => None,
        })
    }

    /// Everything that it draws, on paper, with its ink: first the symbol's parts, then
    /// the texts that it shows. A symbol within a symbol is left out.
    #[must_use]
    pub fn drawn(&self, ink: Ink) -> Vec<(Shape, Ink)> {
        let parts = self
            .symbol
            .parts
            .iter()
            .filter(|part| !matches!(part.shape, Shape::Symbol(_)))
            .map(|part| {
                (
                    part.shape.moved(self.turn_degrees, self.at),
                    part.ink.unwrap_or(ink),
                )
            });
        let texts = self.shown().map(|text| (Shape::Text(text.clone()), ink));
        parts.chain(texts).collect()
    }

    /// The same use turned by degrees about the paper's origin, then moved.
    #[must_use]
    pub fn moved(&self, turn_degrees: f64, by: DVec2) -> Self {
        let fields = self.fields.iter().map(|field| Field {
            tag: field.tag.clone(),
            text: match &field.text {
                FieldText::Shown(text) => FieldText::Shown(text.clone().moved(turn_degrees, by)),
                FieldText::Hidden(value) => FieldText::Hidden(value.clone()),
            },
        });
        Self {
            symbol: Arc::clone(&self.symbol),
            at: turned(self.at, turn_degrees) + by,
            turn_degrees: self.turn_degrees + turn_degrees,
            fields: fields.collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::lettering::Lettering;
    use crate::sheets::mark::Polyline;
    use crate::sheets::pen::Pen;

    fn arrow() -> Arc<Symbol> {
        let line = Polyline::open(Pen::THIN, [PaperPoint::ZERO, PaperPoint::new(4.0, 0.0)]);
        Arc::new(Symbol {
            name: "ARROW".to_owned(),
            parts: vec![Part::new(line.clone()), Part::inked(line, Ink::Paper)],
        })
    }

    #[test]
    fn parts_turn_about_the_origin_and_keep_their_ink() {
        let used = SymbolUse::new(&arrow(), PaperPoint::new(10.0, 20.0)).turned(90.0);
        let drawn = used.drawn(Ink::Ember);
        let [
            (Shape::Polyline(first), Ink::Ember),
            (Shape::Polyline(_), Ink::Paper),
        ] = &drawn[..]
        else {
            panic!("two lines in their inks, not {drawn:?}");
        };
        assert_eq!(
            first.points,
            [PaperPoint::new(10.0, 20.0), PaperPoint::new(10.0, 16.0)]
        );
    }

    #[test]
    fn shown_fields_are_drawn_and_hidden_ones_are_not() {
        let label = Text::new("R3", Lettering::regular(2.5), PaperPoint::new(1.0, 2.0));
        let used = SymbolUse::new(&arrow(), PaperPoint::ZERO)
            .showing("NAME", label.clone())
            .keeping("ID", "R3.2");
        assert_eq!(used.shown().collect::<Vec<_>>(), [&label]);
        assert_eq!(
            used.drawn(Ink::Black).last(),
            Some(&(Shape::Text(label), Ink::Black))
        );
    }

    #[test]
    fn moving_a_use_moves_all_that_it_draws() {
        let label = Text::new("R3", Lettering::regular(2.5), PaperPoint::new(1.0, 2.0));
        let used = SymbolUse::new(&arrow(), PaperPoint::new(3.0, 4.0)).showing("NAME", label);
        let by = DVec2::new(7.0, -2.0);
        let moved = used.moved(90.0, by).drawn(Ink::Black);
        let expected: Vec<_> = used
            .drawn(Ink::Black)
            .iter()
            .map(|(shape, ink)| (shape.moved(90.0, by), *ink))
            .collect();
        assert_eq!(moved, expected);
    }

    #[test]
    fn symbols_within_symbols_are_left_out() {
        let inner = Part::new(SymbolUse::new(&arrow(), PaperPoint::ZERO));
        let outer = Arc::new(Symbol {
            name: "OUTER".to_owned(),
            parts: vec![inner],
        });
        assert!(
            SymbolUse::new(&outer, PaperPoint::ZERO)
                .drawn(Ink::Black)
                .is_empty()
        );
    }
}
