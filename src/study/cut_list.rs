//! The list by which suspensions are cut and bought.

use super::channels::{ChannelPiece, channel_list};
use super::hardware::{HangerHardware, LegHardware, Store};
use super::{RunStudy, Study};
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
    /// Adjusters, clamps and brackets by name, in the order of the catalogue: those of
    /// the suspensions and those by which channels lie on their members.
    pub parts: Vec<PartTotal>,
    /// By what each cross channel lies on its members, in the order of the channel list.
    pub channels: Vec<ChannelClamps>,
}

/// The two clamps of a cross channel, however many hangers share it.
#[derive(Debug, Clone, PartialEq)]
pub struct ChannelClamps {
    /// The channel's name on the channel list: `C1`.
    pub channel: String,
    /// The members that it lies on.
    pub members: [MemberId; 2],
    /// What each clamp must bear, N: every hanger of the channel at the greatest load of
    /// its cases, as if all came at once.
    pub loads_n: [f64; 2],
    /// The name of the clamp on each member; none where nothing for the member is
    /// strong enough.
    pub clamps: [Option<String>; 2],
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
            let is_surveyed = |id: &str| measured.get(id).copied().unwrap_or(false);
            let assumed = assumed(run, hanger, is_surveyed);
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
    totals(study, pieces, channels(study))
}

/// What must be looked at on site before a hanger of a run is made, in order.
#[must_use]
pub fn to_verify(study: &Study, run: &RunStudy, hanger: usize) -> Vec<Assumption> {
    let Some(known) = run.hanging.hangers.get(hanger) else {
        return Vec::new();
    };
    let is_surveyed = |id: &str| {
        let member = study.structure.member(id);
        member.is_some_and(|member| member.is_as_built)
    };
    let mut verify = assumed(run, known, is_surveyed);
    if run.hardware.get(hanger).is_some_and(has_generic_part) {
        verify.push(Assumption::GenericHardware);
    }
    verify.sort_unstable();
    verify
}

/// What is assumed of a hanger's steel and heater.
fn assumed(run: &RunStudy, hanger: &Hanger, is_surveyed: impl Fn(&str) -> bool) -> Vec<Assumption> {
    let mut assumed = Vec::new();
    if hanger.load.allowed == Capacity::Unknown {
        assumed.push(Assumption::CapacityUnknown);
    }
    if !hanger.at.members().all(is_surveyed) {
        assumed.push(Assumption::MemberNotSurveyed);
    }
    if !run.family.source.certified {
        assumed.push(Assumption::UncertifiedHeater);
    }
    assumed
}

fn has_generic_part(hardware: &HangerHardware) -> bool {
    let clamp = hardware.attachment.as_ref();
    clamp.is_some_and(|it| !it.part.source.certified) || hardware.legs.iter().any(is_generic)
}

/// Whether its size or its adjuster has figures that nobody has certified.
fn is_generic(leg: &LegHardware) -> bool {
    let made = leg.made.as_ref().and_then(|made| made.as_ref().ok());
    let adjuster = made.and_then(|made| made.adjuster.as_ref());
    let size = leg.size.as_ref();
    size.is_some_and(|it| !it.part.source.certified)
        || adjuster.is_some_and(|it| !it.part.source.certified)
}

/// The clamps of every cross channel; nothing where no hardware is at hand.
fn channels(study: &Study) -> Vec<ChannelClamps> {
    let table = &study.catalogue.hardware;
    if table.is_empty() {
        return Vec::new();
    }
    let store = Store::new(&study.site, table);
    channel_list(study)
        .into_iter()
        .map(|channel| {
            let loads_n = greatest_n(study, &channel);
            let clamp = |end: usize| store.clamp_on(&channel.members[end], loads_n[end]);
            let clamps = [clamp(0), clamp(1)].map(|it| it.map(|it| it.part.name.clone()));
            ChannelClamps {
                channel: channel.name,
                members: channel.members,
                loads_n,
                clamps,
            }
        })
        .collect()
}

/// What a channel puts on its two members with each of its hangers at its greatest.
fn greatest_n(study: &Study, channel: &ChannelPiece) -> [f64; 2] {
    channel.hangers.iter().fold([0.0, 0.0], |[one, other], it| {
        let run = study.run(&it.run);
        let hanger = run.and_then(|run| run.hanging.hangers.get(it.number.checked_sub(1)?));
        let load_n = hanger.map_or(it.load_n, |hanger| hanger.cases.greatest_n());
        let share = it.to_first_m / channel.span_m;
        [one + load_n * (1.0 - share), other + load_n * share]
    })
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
    let generic = is_generic(leg) || clamp.is_some_and(|it| !it.part.source.certified);
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

fn totals(study: &Study, pieces: Vec<CutPiece>, channels: Vec<ChannelClamps>) -> CutList {
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
        let of_pieces = pieces.iter().flat_map(|it| [&it.adjuster, &it.clamp]);
        let of_channels = channels.iter().flat_map(|it| &it.clamps);
        let all = of_pieces.chain(of_channels);
        let count = all.filter(|part| part.as_ref() == Some(name)).count();
        (count > 0).then(|| PartTotal {
            name: name.clone(),
            count,
        })
    });
    CutList {
        stock: stock.collect(),
        parts: parts.collect(),
        pieces,
        channels,
    }
}
