//! `explain`: what a rule checks, why, its source and its limits.

use super::arguments::Explain;
use super::{Failure, Outcome, answer};
use crate::findings::{RULES, Rule, rule};

pub(super) fn run(explain: &Explain) -> Result<Outcome, Failure> {
    match &explain.rule {
        None => {
            let width = RULES.iter().map(|rule| rule.name.len()).max().unwrap_or(0);
            let lines: String = RULES
                .iter()
                .map(|rule| {
                    format!(
                        "{:<width$}  {:<8} {}\n",
                        rule.name,
                        rule.severity.label(),
                        rule.title
                    )
                })
                .collect();
            answer(&lines);
        }
        Some(name) => answer(&text(rule(name).ok_or_else(|| unknown(name))?)),
    }
    Ok(Outcome::Clean)
}

fn unknown(name: &str) -> Failure {
    Failure(format!(
        "no rule \"{name}\"; `rafterglow explain` lists them all"
    ))
}

fn text(rule: &Rule) -> String {
    let accepted = if rule.can_be_accepted {
        "A finding may be accepted with a written reason, which is printed."
    } else {
        "Its findings can't be accepted."
    };
    let explain = &rule.explain;
    format!(
        "{} ({})\n{}\n\nchecks  {}\nwhy     {}\ncure    {}\nsource  {}\nlimits  {}\n\n{accepted}\n",
        rule.name,
        rule.severity.label(),
        rule.title,
        explain.checks,
        explain.why,
        explain.remedy,
        explain.source,
        explain.limits
    )
}
