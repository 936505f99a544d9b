//! The structure in the words of the hanging engine.

use crate::geometry::DVec2;
use crate::hanging::{Capacity, ChannelCutting, ChannelStock, HangPoints, KindCosts, SpanInSpace};
use crate::site::framing::Allowance;
use crate::site::policy::PolicyItem;
use crate::site::{Policy, Site};
use crate::structure::{Member, Structure};
use std::sync::Arc;

/// Every member span that can be hung from, in the order of the structure.
pub(super) fn spans(structure: &Structure) -> Vec<Arc<SpanInSpace>> {
    structure
        .members
        .iter()
        .filter_map(|member| span(member))
        .map(Arc::new)
        .collect()
}

fn span(member: &Member) -> Option<SpanInSpace> {
    let usable_m = member.usable_m?;
    let in_all = member
        .allowed_in_all
        .map(|force| Capacity::Known(force.as_newtons()));
    let hang_points = if member.kind.has_panel_points() {
        HangPoints::Panels {
            points_m: member.panel_points.iter().map(|point| point.at_m).collect(),
            allowed: capacity(member.allowed_at_point),
            // An allowance of nothing forbids hanging there at all.
            off_panel: match member.allowed_off_panel {
                Allowance::Known(force) if force.as_newtons() <= 0.0 => None,
                allowance => Some(capacity(allowance)),
            },
            in_all,
        }
    } else {
        HangPoints::Anywhere {
            allowed: capacity(member.allowed_at_point),
            in_all,
        }
    };
    Some(SpanInSpace {
        id: Arc::from(member.id.as_str()),
        framing: member.framing_index,
        row: member.row,
        start: member.start,
        direction: member.direction,
        usable_m,
        attach_m: member.attach_m.clone(),
        hang_points,
    })
}

fn capacity(allowance: Allowance) -> Capacity {
    allowance.known().map_or(Capacity::Unknown, |force| {
        Capacity::Known(force.as_newtons())
    })
}

/// What each kind of hanger costs, in whole thousandths.
pub(super) fn costs(policy: &Policy) -> KindCosts {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a checked policy cost lies in 0..=1000; `as` saturates for others"
    )]
    let thousandths = |item: PolicyItem| (policy.value(item) * 1000.0).round() as u32;
    KindCosts {
        panel: thousandths(PolicyItem::CostOnPoint),
        line: thousandths(PolicyItem::CostOnPoint),
        off_panel: thousandths(PolicyItem::CostOffPanel),
        channel: thousandths(PolicyItem::CostChannel),
    }
}

/// The channel that cross channels are cut from.
pub(super) fn channel(site: &Site) -> ChannelStock {
    let value = |item| site.policy.value(item);
    // Nothing is proposed that can't be cut from one stock length.
    let between_m = cutting(&site.policy).greatest_span_m();
    ChannelStock {
        depth_m: value(PolicyItem::ChannelDepth),
        greatest_span_m: value(PolicyItem::ChannelSpan).min(between_m),
        second_moment_m4: value(PolicyItem::ChannelSecondMoment),
        section_modulus_m3: value(PolicyItem::ChannelSectionModulus),
        allowed_stress_pa: value(PolicyItem::ChannelStress),
        elasticity_pa: value(PolicyItem::ChannelModulus),
        greatest_deflection_ratio: 1.0 / value(PolicyItem::ChannelDeflection),
        ..ChannelStock::default()
    }
}

/// What cross channels are cut from, and how.
pub(super) fn cutting(policy: &Policy) -> ChannelCutting {
    ChannelCutting {
        stock_m: policy.value(PolicyItem::ChannelStock),
        overhang_m: policy.value(PolicyItem::ChannelOverhang),
        step_m: policy.value(PolicyItem::ChannelStep),
        kerf_m: policy.value(PolicyItem::ChannelKerf),
    }
}

/// Plan boxes of the spans. Two thousand comparisons cost two microseconds, less than
/// walking a tree would save.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct SpanIndex {
    boxes: Vec<(DVec2, DVec2)>,
}

impl SpanIndex {
    pub(super) fn new(spans: &[Arc<SpanInSpace>]) -> Self {
        let boxes = spans
            .iter()
            .map(|span| {
                let (a, b) = (span.plan_at(span.usable_m.0), span.plan_at(span.usable_m.1));
                (a.min(b), a.max(b))
            })
            .collect();
        Self { boxes }
    }

    /// The spans whose box comes within `reach` of the segment's box, in order.
    pub(super) fn near(&self, a: DVec2, b: DVec2, reach: f64) -> Vec<usize> {
        let (low, high) = (a.min(b) - reach, a.max(b) + reach);
        self.boxes
            .iter()
            .enumerate()
            .filter(|(_, (from, to))| from.cmple(high).all() && to.cmpge(low).all())
            .map(|(index, _)| index)
            .collect()
    }
}
