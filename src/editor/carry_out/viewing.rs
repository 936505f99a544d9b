//! What is in view, and how it looks.

use super::stage_of;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::extent::extent_of_ids;
use crate::editor::intent::Message;
use crate::editor::theme::ThemeChoice;
use crate::editor::view::Aspect;
use crate::geometry::DVec3;
use crate::site::ObjectId;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Half the height of a hall, m: where an object is looked for in a section that says
/// nothing of its height.
const MIDDLE_M: f64 = 2.0;

/// Factor of one step nearer.
const ZOOM_STEP: f64 = 1.25;

impl Editor {
    pub(super) fn view_command(&mut self, command: Command) {
        match command {
            Command::Fit => match self.view.aspect {
                Aspect::Plan => self.fit(),
                Aspect::Section => self.section.fit(),
                Aspect::Space => self.space.fit(),
            },
            Command::FitSelection => {
                let site = self.document.shown();
                let extent = extent_of_ids(site, &self.catalogue, &self.selection.ids);
                if !extent.is_empty() {
                    self.canvas.camera.fit(extent.least, extent.greatest);
                }
            }
            Command::ZoomIn => self.zoom(ZOOM_STEP),
            Command::ZoomOut => self.zoom(1.0 / ZOOM_STEP),
            Command::ToggleLayer(layer) => self.view.toggle(layer),
            Command::NextFinding => self.go_to_finding(1),
            Command::PreviousFinding => self.go_to_finding(-1),
            Command::ToggleSnapping => {
                self.view.snapping = !self.view.snapping;
                self.message = Some(Message::done(if self.view.snapping {
                    "Snapping"
                } else {
                    "Not snapping"
                }));
            }
            Command::Look(aspect) => self.view.aspect = aspect,
            Command::ToggleBeside => self.view.beside = !self.view.beside,
            Command::ToggleProfile => self.view.profile = !self.view.profile,
            Command::ToggleTheme => {
                self.theme = match self.theme {
                    ThemeChoice::Dark => ThemeChoice::Light,
                    ThemeChoice::Light | ThemeChoice::Desktop => ThemeChoice::Dark,
                };
                self.keep_preferences();
            }
            _ => {}
        }
    }

    fn zoom(&mut self, factor: f64) {
        match self.view.aspect {
            Aspect::Plan => self.canvas.camera.zoom_middle(factor),
            Aspect::Section => self.section.zoom_middle(factor),
            Aspect::Space => self.space.nearer(factor),
        }
    }

    /// The finding so many places on in the list, round and round.
    fn go_to_finding(&mut self, step: isize) {
        let findings = Arc::clone(self.results.findings());
        let n_findings = findings.len();
        let next = match (self.finding_at, step) {
            (Some(place), _) if n_findings > 0 => {
                (place % n_findings + n_findings).saturating_add_signed(step) % n_findings
            }
            (_, 1) => 0,
            _ => n_findings.saturating_sub(1),
        };
        if let Some(finding) = findings.get(next) {
            self.finding_at = Some(next);
            self.go_to(finding.place, self.results.objects_of(finding));
            let units = self.document.committed().units;
            self.message = Some(Message::done(finding.text_in(units)));
        }
    }

    pub(super) fn go_to(&mut self, place: Option<DVec3>, subjects: BTreeSet<ObjectId>) {
        let site = self.document.shown();
        let extent = extent_of_ids(site, &self.catalogue, &subjects);
        let middle = (!extent.is_empty()).then(|| extent.middle());
        if let Some(plan) = place.map(DVec3::truncate).or(middle) {
            self.canvas.camera.go_to(plan);
            match self.view.aspect {
                Aspect::Space => self.space.look_at(plan),
                Aspect::Section => {
                    let scheme = site.scheme();
                    let mut runs = subjects.iter().filter_map(|id| match id {
                        ObjectId::Run(id) => scheme.run(id),
                        _ => None,
                    });
                    let run = runs.next().map(AsRef::as_ref);
                    let height_m = run.map_or(MIDDLE_M, |run| run.tube_height.as_metres());
                    let place = place.unwrap_or_else(|| plan.extend(height_m));
                    let known = (site.as_ref(), self.catalogue.as_ref());
                    let is_shown = self.section.look_at(known, place, run);
                    if !is_shown && !self.view.beside {
                        self.view.aspect = Aspect::Plan;
                    }
                }
                Aspect::Plan => {}
            }
        }
        if let Some(id) = subjects.last() {
            self.stage = stage_of(id);
        }
        self.selection.pick(subjects);
    }
}
