//! The list of rules.

use super::{Context, Finding, Severity};

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
pub const RULES: &[&Rule] = &[];

/// The rule with a name.
#[must_use]
pub fn rule(name: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.name == name).copied()
}
