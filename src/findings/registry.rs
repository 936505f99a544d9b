//! The list of rules.

use super::{Context, Finding, Severity, rules};

/// One rule: what it looks for, how it explains itself, and its check.
#[derive(Debug)]
pub struct Rule {
    /// The fault's name, never the cure's.
    pub name: &'static str,
    /// The fault in plain words, as a heading.
    pub title: &'static str,
    /// How bad its findings are.
    pub severity: Severity,
    /// Whether a user may accept a finding with a written reason.
    pub can_be_accepted: bool,
    /// What it does, for people.
    pub explain: Explanation,
    /// Adds what it finds.
    pub check: fn(&Context<'_>, &mut Vec<Finding>),
}

/// A rule's documentation.
#[derive(Debug)]
pub struct Explanation {
    /// What is looked at.
    pub checks: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// What cures it.
    pub remedy: &'static str,
    /// Where the requirement comes from.
    pub source: &'static str,
    /// What is not looked at.
    pub limits: &'static str,
}

/// Every rule, by name.
pub const RULES: &[&Rule] = &[
    &rules::bay_use_contradicted::RULE,
    &rules::burner_in_door_draught::RULE,
    &rules::burner_out_of_reach::RULE,
    &rules::combustible_inside_keep_clear::RULE,
    &rules::crane_inside_lawful_distance::RULE,
    &rules::crane_too_near::RULE,
    &rules::cross_channel_needed::RULE,
    &rules::family_uncertified::RULE,
    &rules::first_hanger_outside_window::RULE,
    &rules::garage_heater_too_low::RULE,
    &rules::greatest_stacking_height::RULE,
    &rules::hang_point_load_unknown::RULE,
    &rules::hang_point_overloaded::RULE,
    &rules::hang_point_overloaded_unlevel::RULE,
    &rules::hangar_heater_too_low::RULE,
    &rules::hangar_heater_unvented::RULE,
    &rules::hangar_shop_heater_too_low::RULE,
    &rules::hangar_without_aircraft::RULE,
    &rules::hanger_gap_outside_limits::RULE,
    &rules::hanger_on_tube_joint::RULE,
    &rules::hanger_slack::RULE,
    &rules::hanging_unproven::RULE,
    &rules::heater_in_hazard_zone::RULE,
    &rules::heater_over_gas_vehicles::RULE,
    &rules::insulation_facing_too_near::RULE,
    &rules::kept_hanger_lost::RULE,
    &rules::lean_too_great::RULE,
    &rules::member_overloaded::RULE,
    &rules::mezzanine_below_low_heater::RULE,
    &rules::mounting_height_outside_range::RULE,
    &rules::non_combustible_too_near::RULE,
    &rules::overhang_too_long::RULE,
    &rules::paint_sprayed_near_heater::RULE,
    &rules::policy_overridden::RULE,
    &rules::reflector_too_near_sprinkler::RULE,
    &rules::rod_too_short::RULE,
    &rules::roof_collateral_exceeded::RULE,
    &rules::run_cannot_be_hung::RULE,
    &rules::run_outside_bay::RULE,
    &rules::run_tips_without_hanger::RULE,
    &rules::run_would_tip::RULE,
    &rules::runs_crossing::RULE,
    &rules::runs_too_near::RULE,
    &rules::second_hanger_outside_window::RULE,
    &rules::service_room_blocked::RULE,
    &rules::solid_meets_heater::RULE,
    &rules::sprinkler_heads_near_heater::RULE,
    &rules::sprinkler_rating_too_low::RULE,
    &rules::sprinkler_rating_unknown::RULE,
    &rules::surface_nature_unknown::RULE,
    &rules::suspension_hardware_too_weak::RULE,
    &rules::suspension_not_made_up::RULE,
    &rules::suspension_too_short::RULE,
    &rules::sway_bracing_needs_engineer::RULE,
    &rules::swing_too_great::RULE,
    &rules::temperature_limit_near_heater::RULE,
    &rules::tilt_outside_bands::RULE,
    &rules::vehicle_door_head_above_heater::RULE,
    &rules::vehicle_door_of_unknown_use::RULE,
    &rules::wet_air_round_heater::RULE,
    &rules::wide_heater_under_sprinklers::RULE,
];

/// The rule with a name.
#[must_use]
pub fn rule(name: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.name == name).copied()
}
