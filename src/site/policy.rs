//! Every number that a user may override, with its default and source.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The numbers that a user has overridden, each with the reason that is printed.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Policy {
    overrides: BTreeMap<PolicyItem, Override>,
}

/// One overridden number.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Override {
    /// The number, in the item's unit.
    pub value: f64,
    /// Why it differs from the default.
    pub reason: String,
}

macro_rules! policy {
    ($( $item:ident, $name:literal, $default:expr, $least:expr, $greatest:expr, $unit:literal, $label:literal, $source:literal; )*) => {
        /// A number that a user may override.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum PolicyItem {
            $(
                #[doc = $label]
                #[serde(rename = $name)]
                $item,
            )*
        }

        impl PolicyItem {
            /// All of them, in the order in which they are offered.
            pub const ALL: &'static [Self] = &[$(Self::$item),*];

            /// Its meaning, default, bounds and source.
            pub const fn facts(self) -> &'static PolicyFacts {
                match self {
                    $(Self::$item => &PolicyFacts {
                        name: $name, label: $label, default: $default, least: $least, greatest: $greatest, unit: $unit, source: $source,
                    },)*
                }
            }
        }
    };
}

/// What there is to know of a policy number.
#[derive(Debug, PartialEq)]
pub struct PolicyFacts {
    /// Its name in the file.
    pub name: &'static str,
    /// Its name on the screen.
    pub label: &'static str,
    /// Its value where nobody overrides it.
    pub default: f64,
    /// The least value that makes sense.
    pub least: f64,
    /// The greatest value that makes sense.
    pub greatest: f64,
    /// SI unit, empty for a plain number.
    pub unit: &'static str,
    /// Where the default comes from.
    pub source: &'static str,
}

policy! {
    CostOnPoint, "cost_on_point", 1.0, 0.0, 1000.0, "", "cost of a hanger at a panel point, or on a beam or purlin", "program default: the unit of cost";
    CostOffPanel, "cost_off_panel", 1.5, 0.0, 1000.0, "", "cost of a hanger off a panel point", "program default: a light load that the joist's engineer must know of";
    CostChannel, "cost_cross_channel", 4.0, 0.0, 1000.0, "", "cost of a hanger on a cross channel", "program default: channel, two clamps and their fitting";
    ChannelSpan, "channel_greatest_span", 3.0, 0.1, 6.0, "m", "greatest span of a cross channel", "half of the 6 m stock length";
    ChannelStock, "channel_stock_length", 6.0, 0.5, 12.0, "m", "stock length that cross channels are cut from", "support channel is sold in 3 m and 6 m (10 ft and 20 ft)";
    ChannelOverhang, "channel_overhang", 0.05, 0.0, 0.5, "m", "length of a cross channel beyond each of its members", "trade practice: room for the clamp at its end";
    ChannelStep, "channel_cutting_step", 0.01, 0.001, 0.5, "m", "step that cross channels are cut to, rounded up", "program default: a tape measure's centimetre";
    ChannelKerf, "channel_kerf", 0.003, 0.0, 0.02, "m", "length that one cut through a channel takes away", "width of an abrasive disc";
    ChannelDepth, "channel_depth", 0.041, 0.02, 0.2, "m", "depth of a cross channel", "41 x 41 x 2.5 mm support channel";
    ChannelSectionModulus, "channel_section_modulus", 3.31e-6, 1e-7, 1e-3, "m3", "section modulus of a cross channel", "41 x 41 x 2.5 mm support channel, 0.202 in3";
    ChannelSecondMoment, "channel_second_moment", 7.70e-8, 1e-9, 1e-4, "m4", "second moment of area of a cross channel", "41 x 41 x 2.5 mm support channel, 0.185 in4";
    ChannelStress, "channel_bending_stress", 172.0e6, 1e7, 4e8, "Pa", "allowed bending stress of a cross channel", "25 ksi, published support channel load tables";
    ChannelModulus, "channel_elastic_modulus", 203.4e9, 1e10, 3e11, "Pa", "elastic modulus of a cross channel", "29.5 million psi, published support channel load tables";
    ChannelDeflection, "channel_deflection_ratio", 240.0, 100.0, 1000.0, "", "span over greatest deflection of a cross channel", "hanging rail practice, span/240";
    ShiftAlong, "shift_along", 1.5, 0.0, 5.0, "m", "how far along its axis a run may be shifted in a suggestion", "program default: less than a bay, so that a run stays what was meant";
    ShiftAcross, "shift_across", 1.5, 0.0, 5.0, "m", "how far across its axis a run may be shifted in a suggestion", "program default: as along";
    NonCombustibleAbove, "non_combustible_above", 0.15, 0.0, 2.0, "m", "distance above a heater to what does not burn", "trade practice, 0.10 to 0.15 m above reflectors for service and heat";
    NonCombustibleSide, "non_combustible_side", 0.10, 0.0, 2.0, "m", "distance beside a heater to what does not burn", "trade practice, as above a reflector";
    NonCombustibleBelow, "non_combustible_below", 0.10, 0.0, 2.0, "m", "distance below a heater to what does not burn", "trade practice, as above a reflector";
    NonCombustibleEnd, "non_combustible_end", 0.30, 0.0, 2.0, "m", "distance from a heater's ends to what does not burn", "trade practice, room for the burner's door and the exhaust";
    RunToRun, "run_to_run", 0.30, 0.0, 5.0, "m", "distance between two heaters", "trade practice, room for service and growth";
    RemedyReach, "remedy_reach", 3.0, 0.1, 20.0, "m", "how far a run may be moved to cure a breach", "program default: beyond it, lay the run out anew";
    HangerLevelError, "hanger_level_error", 0.005, 0.0, 0.1, "m", "how far a single hanger may hang low unnoticed", "trade practice: about what a line level and a turnbuckle leave; a stiff tube's middle hanger goes slack at 3 to 4 mm";
    DesignFactor, "hardware_design_factor", 5.0, 4.0, 12.0, "", "breaking load over greatest load of suspension hardware", "5:1, ASME B30.9 style rigging practice";
    LeastSuspension, "least_suspension", 0.28, 0.0, 3.0, "m", "least suspension, whatever the maker allows less", "trade practice: 280 mm whatever the tube's length";
    RodLongTube, "rod_long_tube", 12.0, 0.0, 100.0, "m", "tube length from which a rod counts as hung on a long tube", "program default: tubes that grow by 40 mm and more";
    RodLeastSuspension, "rod_least_suspension", 0.6, 0.0, 5.0, "m", "least length of a rod on a long tube", "trade practice: no rigid rod on long tubes unless 0.6 m long";
    KeepClearMargin, "keep_clear_margin", 0.0, 0.0, 5.0, "m", "added to the maker's distances to what burns", "the distances of the heater's manual as they are; they can only be widened";
    ExhaustJet, "exhaust_jet", 0.5, 0.5, 5.0, "m", "added beyond the exhaust of a heater that is not vented", "planning figure for the hot jet; it can only be widened";
    FacingDistance, "insulation_facing_distance", 0.30, 0.0, 5.0, "m", "distance from a heater to the facing of an insulation", "trade practice, 0.3 m to insulation facings";
    GarageHeight, "garage_height", 2.4384, 2.4384, 20.0, "m", "lowest part above the floor of a public or repair garage", "8 ft: IMC 304.6, NFPA 30A; it can only be raised";
    VehicleDoorMargin, "vehicle_door_margin", 0.3048, 0.3048, 20.0, "m", "lowest part above the head of the tallest vehicle door, where vehicles pass below", "1 ft: IMC 304.6; it can only be raised";
    HangarHeight, "hangar_height", 3.048, 3.048, 20.0, "m", "lowest part above wings and engine enclosures in a hangar", "10 ft: NFPA 409, IBC 412; it can only be raised";
    HangarShopHeight, "hangar_shop_height", 2.4384, 2.4384, 20.0, "m", "lowest part above the floor of a hangar's shops and offices", "8 ft: NFPA 409, IBC 412; it can only be raised";
    CraneDistance, "crane_distance", 0.6, 0.0, 5.0, "m", "distance between a heater and the space that a crane moves through", "trade practice, 24 in";
    CraneLeastAbove, "crane_least_above", 0.0762, 0.0762, 5.0, "m", "least distance above and below a crane", "3 in: 29 CFR 1910.179(b)(6); it can only be widened";
    CraneLeastBeside, "crane_least_beside", 0.0508, 0.0508, 5.0, "m", "least distance beside a crane", "2 in: 29 CFR 1910.179(b)(6); it can only be widened";
    SprayDistance, "spray_distance", 6.096, 6.096, 50.0, "m", "distance of a heater from where paint is sprayed", "20 ft: trade practice; it can only be widened";
    SprinklerClear, "sprinkler_clear", 0.4572, 0.0, 5.0, "m", "top of a heater below the deflectors of sprinkler heads", "18 in: NFPA 13; large-drop storage heads take 36 in";
    ServiceRoom, "service_room", 0.6, 0.0, 5.0, "m", "free room below, beside and behind a burner", "trade practice, 0.6 to 1.0 m";
    DoorAside, "burner_from_opening", 1.0, 0.0, 20.0, "m", "distance of a burner from a door's opening", "trade practice: gusts blow pressure switches out";
    WideHeater, "sprinkler_wide_object", 1.2192, 0.1, 5.0, "m", "width from which a heater needs sprinkler heads below it", "4 ft: NFPA 13";
    LevelError, "level_error", 0.010, 0.0, 0.1, "m", "how far a part may hang lower than drawn", "one turn of levelling by eye over a run";
}

impl Policy {
    /// The number in force: the user's, or the default.
    pub fn value(&self, item: PolicyItem) -> f64 {
        self.overrides
            .get(&item)
            .map_or(item.facts().default, |given| given.value)
    }

    /// The user's override, if there is one.
    pub fn given(&self, item: PolicyItem) -> Option<&Override> {
        self.overrides.get(&item)
    }

    /// All overrides, in the order of the items.
    pub fn overrides(&self) -> impl Iterator<Item = (PolicyItem, &Override)> {
        self.overrides.iter().map(|(item, given)| (*item, given))
    }

    /// The same policy with one number set, or set back to its default.
    #[must_use]
    pub fn with(&self, item: PolicyItem, given: Option<Override>) -> Self {
        let mut next = self.clone();
        match given {
            Some(given) => next.overrides.insert(item, given),
            None => next.overrides.remove(&item),
        };
        next
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_default_lies_within_its_bounds_and_has_a_source() {
        for item in PolicyItem::ALL {
            let facts = item.facts();
            assert!(
                facts.least <= facts.default && facts.default <= facts.greatest,
                "{}",
                facts.name
            );
            assert!(!facts.source.is_empty() && !facts.label.is_empty());
        }
    }

    #[test]
    fn an_override_is_in_force_until_it_is_taken_back() {
        let given = Override {
            value: 2.0,
            reason: "engineer's letter".to_owned(),
        };
        let policy = Policy::default().with(PolicyItem::CostOffPanel, Some(given));
        assert_eq!(policy.value(PolicyItem::CostOffPanel), 2.0);
        assert_eq!(
            policy
                .with(PolicyItem::CostOffPanel, None)
                .value(PolicyItem::CostOffPanel),
            1.5
        );
    }
}
