//! Every hanger of a study with what sheets and files say of it, gathered once.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::geometry::tolerance;
use crate::hanging::{Capacity, Hanger, LoadPlace, Place};
use crate::structure::Member;
use crate::study::{RunStudy, Study};

use super::wording::hanger_id;

/// One hanger of a run.
#[derive(Debug, Clone)]
pub(super) struct HungAt<'a> {
    /// Its run.
    pub run: &'a Arc<RunStudy>,
    /// Its place from the burner, counted from 0.
    pub index: usize,
    /// Its id: `R3.2`.
    pub id: String,
    /// What the study says of it.
    pub hanger: &'a Hanger,
    /// The greatest load in part of what is allowed: its own at its hold, or that of
    /// all runs at one place. None where anything of it is unknown.
    pub share: Option<f64>,
    /// A member that it holds on differs from the drawing.
    pub is_as_built: bool,
    /// The tube's growth starts here.
    pub is_fixed: bool,
}

impl HungAt<'_> {
    /// Whether somebody must look before it is hung: what it may carry is unknown.
    pub(super) const fn must_be_verified(&self) -> bool {
        self.share.is_none()
    }

    /// Whether something that it hangs from carries more than is allowed.
    pub(super) fn is_overloaded(&self) -> bool {
        let channel = self.hanger.load.channel;
        self.share
            .is_some_and(|share| 1.0 + tolerance::LIMIT < share)
            || channel.is_some_and(|check| !check.passes())
    }

    /// The ids of its members: `J-20/AB`, or `J-20/AB, J-21/AB`.
    pub(super) fn members(&self) -> String {
        self.hanger.at.members().collect::<Vec<_>>().join(", ")
    }

    /// The panel points that it holds on, in the order of its members, or those before
    /// and behind it; empty on beams and purlins, which have none.
    pub(super) fn panel_points(&self) -> String {
        let holds = self.hanger.at.holds();
        let points: Vec<String> = holds
            .filter_map(|hold| match hold.place {
                Place::PanelPoint(number) => Some(number.to_string()),
                Place::ChordPanel(before) => Some(format!("{before}/{}", before + 1)),
                Place::Line => None,
            })
            .collect();
        points.join(", ")
    }
}

/// The members of a study by id.
pub(super) fn members_by_id(study: &Study) -> BTreeMap<&str, &Arc<Member>> {
    let members = &study.structure.members;
    members
        .iter()
        .map(|member| (member.id.as_str(), member))
        .collect()
}

/// The hangers of every run, from burner to exhaust.
pub(super) fn all(study: &Study) -> Vec<HungAt<'_>> {
    let members = members_by_id(study);
    let of = |run| of_run(study, run, &members);
    study.runs.iter().flat_map(of).collect()
}

/// The hangers of one run.
pub(super) fn of_run<'a>(
    study: &'a Study,
    run: &'a Arc<RunStudy>,
    members: &BTreeMap<&str, &'a Arc<Member>>,
) -> Vec<HungAt<'a>> {
    let fixed_m = run.hanging.growth.fixed_station_m;
    let hung_at = |(index, hanger): (usize, &'a Hanger)| {
        let held = hanger.at.members().filter_map(|id| members.get(id));
        HungAt {
            run,
            index,
            id: hanger_id(&run.run, index),
            hanger,
            share: share(study, hanger),
            is_as_built: held.into_iter().any(|member| member.is_as_built),
            is_fixed: hanger.at.station_m.total_cmp(&fixed_m).is_eq(),
        }
    };
    run.hanging
        .hangers
        .iter()
        .enumerate()
        .map(hung_at)
        .collect()
}

/// The greatest of: the hanger's load in part of what it may carry there, and at each
/// of its places, and on each of its members as a whole, the load of all runs in part
/// of what that may carry.
fn share(study: &Study, hanger: &Hanger) -> Option<f64> {
    let part = |load_n: f64, allowed: Capacity| match allowed {
        // Nothing may hang where nothing is allowed, however light.
        Capacity::Known(allowed_n) if allowed_n <= 0.0 => Some(f64::INFINITY),
        Capacity::Known(allowed_n) => Some(load_n / allowed_n),
        Capacity::Unknown => None,
    };
    let mut greatest = part(hanger.load.load_n, hanger.load.allowed)?;
    for hold in &hanger.load.holds {
        let whole = LoadPlace {
            member: Arc::clone(&hold.place.member),
            place: Place::Line,
        };
        for place in [&hold.place, &whole] {
            let place = study.loads.get(place);
            if let Some((sum_n, allowed)) = place.and_then(|it| Some((it.sum_n, it.allowed?))) {
                greatest = greatest.max(part(sum_n, allowed)?);
            }
        }
    }
    Some(greatest)
}
