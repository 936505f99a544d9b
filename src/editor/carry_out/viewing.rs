//! What is in view, and how it looks.

use super::stage_of;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::extent::extent_of_ids;
use crate::editor::intent::Message;
use crate::editor::results::Results;
use crate::editor::theme::ThemeChoice;
use crate::editor::view::Aspect;
use crate::geometry::DVec2;
use crate::site::ObjectId;
use std::collections::BTreeSet;
use std::sync::Arc;

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
            self.go_to(Results::place_of(finding), self.results.objects_of(finding));
            let units = self.document.committed().units;
            self.message = Some(Message::done(finding.text_in(units)));
        }
    }

    pub(super) fn go_to(&mut self, place: Option<DVec2>, subjects: BTreeSet<ObjectId>) {
        let site = self.document.shown();
        let extent = extent_of_ids(site, &self.catalogue, &subjects);
        if let Some(place) = place.or((!extent.is_empty()).then(|| extent.middle())) {
            self.canvas.camera.go_to(place);
            match self.view.aspect {
                Aspect::Space => self.space.look_at(place),
                // A section shows only what it cuts.
                Aspect::Section if !self.view.beside => self.view.aspect = Aspect::Plan,
                Aspect::Section | Aspect::Plan => {}
            }
        }
        if let Some(id) = subjects.last() {
            self.stage = stage_of(id);
        }
        self.selection.pick(subjects);
    }
}
