//! What each suspension of a run is made of, from the catalogue's hardware.

use crate::catalogue::{
    Adjuster, AttachedTo, Attachment, Form, HardwareTable, SuspensionKind, SuspensionSize,
};
use crate::hanging::{
    AdjusterStock, Cut, Hanger, Hanging, Kind, MakeUp, NoMakeUp, PieceStock, Wanted,
    weakest_that_bears,
};
use crate::site::policy::PolicyItem;
use crate::site::{MemberId, MemberKind, Run, Site};
use std::sync::Arc;

/// Rod is cut to this, m.
const ROD_STEP_M: f64 = 0.005;
/// Wire rope is cut to this, m.
const ROPE_STEP_M: f64 = 0.010;

/// What hangs one hanger.
#[derive(Debug, Clone, PartialEq)]
pub struct HangerHardware {
    /// What it holds to.
    pub holds_to: Option<AttachedTo>,
    /// Its clamp or bracket; none where none is strong enough, or none is at hand.
    pub attachment: Option<Part<Attachment>>,
    /// What each of its suspensions is made of, in their order.
    pub legs: Vec<LegHardware>,
}

/// A part, and what it bears.
#[derive(Debug, Clone, PartialEq)]
pub struct Part<T> {
    /// The part.
    pub part: Arc<T>,
    /// The greatest load that it must bear over all cases, N.
    pub load_n: f64,
    /// What it may bear at the site's design factor, N.
    pub allowed_n: f64,
}

/// What one suspension is made of.
#[derive(Debug, Clone, PartialEq)]
pub struct LegHardware {
    /// The kind that was asked for.
    pub kind: SuspensionKind,
    /// The greatest pull that it must bear over all cases, N.
    pub pull_n: f64,
    /// The size; none where no size of the kind is strong enough.
    pub size: Option<Part<SuspensionSize>>,
    /// How it is made up; none without a size.
    pub made: Option<Result<Made, NoMakeUp>>,
}

/// How one suspension is made up.
#[derive(Debug, Clone, PartialEq)]
pub struct Made {
    /// Lengths and links.
    pub make_up: MakeUp,
    /// Its adjuster.
    pub adjuster: Option<Part<Adjuster>>,
}

impl<T> Part<T> {
    /// How much of what it may bear is used, 0 to 1.
    #[must_use]
    pub fn used(&self) -> f64 {
        self.load_n / self.allowed_n
    }
}

impl HangerHardware {
    /// Whether everything is strong enough.
    #[must_use]
    pub fn is_strong_enough(&self) -> bool {
        self.attachment.is_some() && self.legs.iter().all(|leg| leg.size.is_some())
    }
}

/// The hardware table with its strengths at the site's design factor.
pub(super) struct Store<'a> {
    site: &'a Site,
    table: &'a HardwareTable,
    /// Offered sizes of each kind, with their place in the table.
    sizes: Vec<(SuspensionKind, usize, PieceStock)>,
    adjusters: Vec<(usize, AdjusterStock)>,
    exact_within_m: f64,
    design_factor: f64,
}

impl<'a> Store<'a> {
    pub(super) fn new(site: &'a Site, table: &'a HardwareTable) -> Self {
        let design_factor = site.policy.value(PolicyItem::DesignFactor);
        let sizes = table.sizes.iter().enumerate();
        let adjusters = table.adjusters.iter().enumerate();
        Self {
            site,
            table,
            sizes: sizes
                .filter(|(_, size)| size.offered)
                .map(|(which, size)| (size.kind(), which, piece(size, design_factor)))
                .collect(),
            adjusters: adjusters
                .map(|(which, adjuster)| {
                    let stock = AdjusterStock {
                        allowed_n: adjuster.strength.allowed(design_factor).as_newtons(),
                        shortest_m: adjuster.shortest.as_metres(),
                        longest_m: adjuster.longest.as_metres(),
                    };
                    (which, stock)
                })
                .collect(),
            exact_within_m: site.policy.value(PolicyItem::HangerLevelError),
            design_factor,
        }
    }

    /// What hangs each hanger of a run; nothing where no hardware is at hand.
    pub(super) fn of_run(&self, run: &Run, hanging: &Hanging) -> Vec<HangerHardware> {
        if self.table.is_empty() {
            return Vec::new();
        }
        let kind = run.suspension.unwrap_or(self.site.conditions.suspension);
        let adjusters: Vec<(usize, AdjusterStock)> = self
            .adjusters
            .iter()
            .copied()
            .filter(|&(which, _)| self.table.adjusters[which].serves.contains(&kind))
            .collect();
        let offered: Vec<AdjusterStock> = adjusters.iter().map(|&(_, stock)| stock).collect();
        let sizes: Vec<(usize, PieceStock)> = self
            .sizes
            .iter()
            .filter(|(of, ..)| *of == kind)
            .map(|&(_, which, stock)| (which, stock))
            .collect();
        hanging
            .hangers
            .iter()
            .map(|hanger| {
                let holds_to = self.holds_to(hanger);
                let attachment =
                    holds_to.and_then(|to| self.attachment(to, hanger.cases.greatest_n()));
                let top_m = attachment
                    .as_ref()
                    .map_or(0.0, |it| it.part.make_up.as_metres());
                let legs = hanger.suspensions.iter().map(|suspension| {
                    let wanted = Wanted {
                        length_m: suspension.length_m,
                        top_m,
                        pull_n: hanger.greatest_pull_n(suspension),
                        exact_within_m: self.exact_within_m,
                    };
                    self.leg(kind, &sizes, (&adjusters, &offered), &wanted)
                });
                HangerHardware {
                    holds_to,
                    legs: legs.collect(),
                    attachment,
                }
            })
            .collect()
    }

    fn holds_to(&self, hanger: &Hanger) -> Option<AttachedTo> {
        if hanger.at.kind == Kind::Channel {
            return Some(AttachedTo::Channel);
        }
        self.kind_of(&MemberId::new(&hanger.at.first.member))
    }

    /// What sort of member it is, for whatever holds to it.
    fn kind_of(&self, member: &MemberId) -> Option<AttachedTo> {
        let framing = self.site.framings.iter().find(|it| member.is_of(&it.id))?;
        Some(match framing.kind {
            MemberKind::OpenWebJoist => AttachedTo::OpenWebJoist,
            MemberKind::Purlin => AttachedTo::Purlin,
            MemberKind::Beam => AttachedTo::Beam,
            MemberKind::TimberTruss => AttachedTo::TimberTruss,
        })
    }

    /// The first clamp or bracket for a member that bears a load.
    pub(super) fn clamp_on(&self, member: &MemberId, load_n: f64) -> Option<Part<Attachment>> {
        self.attachment(self.kind_of(member)?, load_n)
    }

    fn attachment(&self, to: AttachedTo, load_n: f64) -> Option<Part<Attachment>> {
        self.table
            .attachments
            .iter()
            .filter(|attachment| attachment.holds_to.contains(&to))
            .find_map(|part| {
                let allowed_n = part.strength.allowed(self.design_factor).as_newtons();
                weakest_that_bears([allowed_n], load_n).map(|_| Part {
                    part: Arc::clone(part),
                    load_n,
                    allowed_n,
                })
            })
    }

    fn leg(
        &self,
        kind: SuspensionKind,
        sizes: &[(usize, PieceStock)],
        (adjusters, offered): (&[(usize, AdjusterStock)], &[AdjusterStock]),
        wanted: &Wanted,
    ) -> LegHardware {
        let pull_n = wanted.pull_n;
        let chosen = weakest_that_bears(sizes.iter().map(|(_, it)| it.allowed_n), pull_n);
        let chosen = chosen.map(|which| sizes[which]);
        let made = chosen.map(|(_, stock)| {
            stock.make_up(offered, wanted).map(|make_up| Made {
                adjuster: make_up.adjuster.map(|which| {
                    let (entry, stock) = adjusters[which];
                    Part {
                        part: Arc::clone(&self.table.adjusters[entry]),
                        load_n: pull_n,
                        allowed_n: stock.allowed_n,
                    }
                }),
                make_up,
            })
        });
        LegHardware {
            kind,
            pull_n,
            size: chosen.map(|(entry, stock)| Part {
                part: Arc::clone(&self.table.sizes[entry]),
                load_n: pull_n,
                allowed_n: stock.allowed_n,
            }),
            made,
        }
    }
}

fn piece(size: &SuspensionSize, design_factor: f64) -> PieceStock {
    PieceStock {
        allowed_n: size.strength.allowed(design_factor).as_newtons(),
        cut: match &size.form {
            Form::Chain { link } => Cut::Links {
                link_m: link.as_metres(),
            },
            Form::Rod { .. } => Cut::Steps {
                step_m: ROD_STEP_M,
                more_m: 0.0,
            },
            Form::Rope { loops } => Cut::Steps {
                step_m: ROPE_STEP_M,
                more_m: loops.as_metres(),
            },
        },
        ends_m: size.ends.as_metres(),
        least_m: size.least.as_metres(),
        greatest_m: size.greatest.as_metres(),
    }
}
