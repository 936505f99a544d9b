//! The list by which suspensions are cut and bought.

use super::Study;
use super::hardware::{HangerHardware, LegHardware};
use crate::catalogue::SuspensionKind;
use crate::hanging::{Capacity, Hanger, Suspension};
use crate::site::{MemberId, RunId};
use std::collections::BTreeMap;

/// One suspension as it is cut.
#[derive(Debug, Clone, PartialEq)]
pub struct CutPiece {
    /// Its run.
    pub run: RunId,
    /// Its hanger, from 1 at the burner.
    pub hanger: usize,
    /// Which of the hanger's suspensions.
    pub leg: Leg,
    /// The member that it hangs from; two of a cross channel.
    pub members: Vec<MemberId>,
    /// What it is made of.
    pub kind: SuspensionKind,
    /// The name of its size; none where nothing of the kind is strong enough.
    pub size: Option<String>,
    /// From attach point to eye, m.
    pub length_m: f64,
    /// What is cut, m; of a rope its loops included. None where it can't be made up.
    pub cut_m: Option<f64>,
    /// How many links that is, of a chain.
    pub links: Option<u32>,
    /// The name of its adjuster.
    pub adjuster: Option<String>,
    /// The length at which the adjuster is set, m.
    pub adjuster_set_m: Option<f64>,
    /// The least and the greatest length that it can be set to, m.
    pub range_m: Option<(f64, f64)>,
    /// The name of its clamp or bracket; that of a bridle stands with its left leg.
    pub clamp: Option<String>,
    /// The greatest pull in it over all cases, N.
    pub pull_n: f64,
    /// What its weakest part may bear at the site's design factor, N.
    pub allowed_n: Option<f64>,
    /// What must be looked at on site before it is cut.
    pub verify: Vec<Assumption>,
}

/// Which suspension of a hanger.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Leg {
    /// Its only one.
    Only,
    /// The left one of two, seen along the run.
    Left,
    /// The right one of two.
    Right,
}

impl Leg {
    /// Its mark behind a hanger's number.
    #[must_use]
    pub const fn mark(self) -> &'static str {
        match self {
            Self::Only => "",
            Self::Left => "L",
            Self::Right => "R",
        }
    }
}

/// What was assumed, and so is "verify on site".
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Assumption {
    /// Nobody has said what the member may carry.
    CapacityUnknown,
    /// The member's place and height are those of the drawing.
    MemberNotSurveyed,
    /// The hardware's figures are generic.
    GenericHardware,
    /// The heater's figures are not those of a certified manual.
    UncertifiedHeater,
}

impl Assumption {
    /// What to look at.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::CapacityUnknown => "capacity unknown: engineer",
            Self::MemberNotSurveyed => "member as drawn: measure",
            Self::GenericHardware => "generic hardware: enter what is bought",
            Self::UncertifiedHeater => "heater's figures not certified",
        }
    }
}

/// All suspensions of a study, by run, hanger and leg, and what to buy in all.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CutList {
    /// One suspension a line.
    pub pieces: Vec<CutPiece>,
    /// Chain, rod and rope by size, in the order of the catalogue.
    pub stock: Vec<StockTotal>,
    /// Adjusters, clamps and brackets by name, in the order of the catalogue.
    pub parts: Vec<PartTotal>,
}

/// What is needed of one size.
#[derive(Debug, Clone, PartialEq)]
pub struct StockTotal {
    /// What it is.
    pub kind: SuspensionKind,
    /// The name of the size.
    pub size: String,
    /// Pieces.
    pub n_pieces: usize,
    /// Length of all pieces as cut, m.
    pub cut_m: f64,
}

/// How many are needed of a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartTotal {
    /// Its name.
    pub name: String,
    /// How many.
    pub count: usize,
}

/// The cut list of a study.
#[must_use]
pub fn cut_list(study: &Study) -> CutList {
    let measured: BTreeMap<&str, bool> = study
        .structure
        .members
        .iter()
        .map(|member| (member.id.as_str(), member.is_as_built))
        .collect();
    let mut pieces = Vec::new();
    for run in &study.runs {
        let hardware = run.hanging.hangers.iter().zip(&run.hardware);
        for (which, (hanger, hardware)) in hardware.enumerate() {
            let surveyed = |id: &str| measured.get(id).copied().unwrap_or(false);
            let mut assumed = Vec::new();
            if hanger.load.allowed == Capacity::Unknown {
                assumed.push(Assumption::CapacityUnknown);
            }
            if !hanger.at.members().all(surveyed) {
                assumed.push(Assumption::MemberNotSurveyed);
            }
            if !run.family.source.certified {
                assumed.push(Assumption::UncertifiedHeater);
            }
            let legs = hanger.suspensions.iter().zip(&hardware.legs);
            for (nth, (suspension, leg)) in legs.enumerate() {
                let place = Place {
                    run: &run.run.id,
                    hanger: which + 1,
                    leg: match (hanger.suspensions.len(), nth) {
                        (1, _) => Leg::Only,
                        (_, 0) => Leg::Left,
                        _ => Leg::Right,
                    },
                };
                pieces.push(piece(place, hanger, hardware, (suspension, leg), &assumed));
            }
        }
    }
    totals(study, pieces)
}

struct Place<'a> {
    run: &'a RunId,
    hanger: usize,
    leg: Leg,
}

fn piece(
    place: Place<'_>,
    hanger: &Hanger,
    hardware: &HangerHardware,
    (suspension, leg): (&Suspension, &LegHardware),
    assumed: &[Assumption],
) -> CutPiece {
    let made = leg.made.as_ref().and_then(|made| made.as_ref().ok());
    let adjuster = made.and_then(|made| made.adjuster.as_ref());
    let clamp = hardware
        .attachment
        .as_ref()
        .filter(|_| place.leg != Leg::Right);
    let mut verify = assumed.to_vec();
    let generic = leg
        .size
        .as_ref()
        .is_some_and(|it| !it.part.source.certified)
        || adjuster.is_some_and(|it| !it.part.source.certified)
        || clamp.is_some_and(|it| !it.part.source.certified);
    if generic {
        verify.push(Assumption::GenericHardware);
    }
    verify.sort_unstable();
    let allowed = leg.size.iter().map(|it| it.allowed_n);
    CutPiece {
        run: place.run.clone(),
        hanger: place.hanger,
        leg: place.leg,
        members: hanger.at.members().map(MemberId::new).collect(),
        kind: leg.kind,
        size: leg.size.as_ref().map(|it| it.part.name.clone()),
        length_m: suspension.length_m,
        cut_m: made.map(|made| made.make_up.cut_m),
        links: made.and_then(|made| made.make_up.links),
        adjuster: adjuster.map(|it| it.part.name.clone()),
        adjuster_set_m: adjuster.and(made).map(|made| made.make_up.adjuster_set_m),
        range_m: made.map(|made| made.make_up.range_m),
        clamp: clamp.map(|it| it.part.name.clone()),
        pull_n: leg.pull_n,
        allowed_n: allowed
            .chain(adjuster.map(|it| it.allowed_n))
            .reduce(f64::min),
        verify,
    }
}

fn totals(study: &Study, pieces: Vec<CutPiece>) -> CutList {
    let table = &study.catalogue.hardware;
    let stock = table.sizes.iter().filter_map(|size| {
        let cut: Vec<f64> = pieces
            .iter()
            .filter(|piece| piece.size.as_ref() == Some(&size.name))
            .filter_map(|piece| piece.cut_m)
            .collect();
        (!cut.is_empty()).then(|| StockTotal {
            kind: size.kind(),
            size: size.name.clone(),
            n_pieces: cut.len(),
            cut_m: cut.iter().sum(),
        })
    });
    let adjusters = table.adjusters.iter().map(|it| &it.name);
    let attachments = table.attachments.iter().map(|it| &it.name);
    let parts = adjusters.chain(attachments).filter_map(|name| {
        let of_piece = |piece: &CutPiece| {
            let of = |part: &Option<String>| usize::from(part.as_ref() == Some(name));
            of(&piece.adjuster) + of(&piece.clamp)
        };
        let count = pieces.iter().map(of_piece).sum();
        (count > 0).then(|| PartTotal {
            name: name.clone(),
            count,
        })
    });
    CutList {
        stock: stock.collect(),
        parts: parts.collect(),
        pieces,
    }
}
