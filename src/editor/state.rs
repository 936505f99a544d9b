//! The window's state, and how a frame goes: read, show, carry out.

use super::advice::{Advice, SiteAdvice};
use super::canvas::Canvas;
use super::dialog::Dialog;
use super::drafts::Drafts;
use super::extent::{Extent, extent_of_ids};
use super::files::Files;
use super::hangers::HangPoints;
use super::intent::{Intent, Message};
use super::placed::Placed;
use super::profile::Profile;
use super::results::Results;
use super::rooms::{Rooms, run_of};
use super::section::SectionView;
use super::selection::Selection;
use super::set_writer::SetWriter;
use super::space::SpaceView;
use super::stage::Stage;
use super::theme::{Theme, ThemeChoice};
use super::tools::ToolKind;
use super::view::{Aspect, View};
use super::way_advice::WayAdvice;
use super::{canvas, keys, panels, profile, section, space};
use crate::catalogue::Catalogue;
use crate::findings::{Finding, Severity};
use crate::geometry::DVec2;
use crate::site::Document;
use crate::site::{Edit, ObjectId, Site};
use crate::structure::{Member, Structure};
use crate::study::{RunStudy, Study};
use crate::units::Length;
use eframe::egui::{CentralPanel, Context, Frame, Panel, Rect, Stroke, Ui, UiBuilder};
use std::path::PathBuf;
use std::sync::Arc;

/// Everything that the window knows.
#[derive(Debug)]
pub struct Editor {
    /// The site, with its steps.
    pub(crate) document: Document,
    /// The families at hand.
    pub(crate) catalogue: Arc<Catalogue>,
    /// What is picked.
    pub(crate) selection: Selection,
    /// The stage that is open.
    pub(crate) stage: Stage,
    /// The tool that is taken up.
    pub(crate) tool: ToolKind,
    /// What the next objects will be like.
    pub(crate) drafts: Drafts,
    /// What is shown.
    pub(crate) view: View,
    /// Light or dark.
    pub(crate) theme: ThemeChoice,
    /// The plan: its camera and what is half drawn on it.
    pub(crate) canvas: Canvas,
    /// The section: its camera and what is dragged in it.
    pub(crate) section: SectionView,
    /// The site in space: its camera.
    pub(crate) space: SpaceView,
    /// What is dragged in the run profile.
    pub(crate) profile: Profile,
    /// The file, once there is one.
    pub(crate) file: Option<PathBuf>,
    /// What else the window knows of files.
    pub(crate) files: Files,
    /// Whoever writes plan sets.
    pub(crate) set_writer: SetWriter,
    /// The question that waits for an answer.
    pub(crate) dialog: Option<Dialog>,
    /// What was said last.
    pub(crate) message: Option<Message>,
    /// Whether the window may go: unsaved work was saved or given up.
    pub(crate) may_close: bool,
    /// The shown objects and how far they reach.
    pub(crate) placed: Placed,
    /// What has been worked out.
    pub(crate) results: Results,
    /// The edit that is previewed, or was last.
    pub(crate) previewed: Option<Edit>,
    /// What is suggested for the picked run.
    pub(crate) advice: Advice,
    /// The ways out of a breach of the picked run, once asked for.
    pub(crate) way_advice: WayAdvice,
    /// The newest study of the site without a preview.
    standing: Option<Arc<Study>>,
    /// What shifting all runs would save.
    pub(crate) site_advice: SiteAdvice,
    /// By how much at most runs may be shifted, where that is to be sought.
    pub(crate) site_sought: Option<Length>,
    /// Where the picked run could hang from.
    pub(crate) hang_points: HangPoints,
    /// The finding that was gone to last.
    pub(crate) finding_at: Option<usize>,
    /// The finding in the list that the pointer is on, by its place.
    pub(crate) pointed: Option<usize>,
    /// The room on all sides of the runs that are looked at.
    pub(crate) rooms: Rooms,
}

/// Widths and heights of the window's parts, points.
const TOP_BAR: f32 = 40.0;
const STATUS_LINE: f32 = 28.0;
const STAGE_RAIL: f32 = 84.0;
const STAGE_PANEL: f32 = 252.0;
const INSPECTOR: f32 = 300.0;
const PROFILE: f32 = 208.0;
/// The part of the height that the profile takes where the window is high.
const PROFILE_PART: f32 = 0.27;
const ASPECTS: f32 = 36.0;

impl Editor {
    /// A window on a site, with the whole of it in view.
    pub fn new(site: Site, catalogue: Arc<Catalogue>) -> Self {
        let mut editor = Self {
            drafts: Drafts::new(&catalogue, site.units),
            catalogue,
            selection: Selection::default(),
            stage: first_stage(&site),
            document: Document::new(site),
            tool: ToolKind::default(),
            view: View::default(),
            theme: ThemeChoice::default(),
            canvas: Canvas::default(),
            section: SectionView::default(),
            space: SpaceView::default(),
            profile: Profile::default(),
            file: None,
            files: Files::default(),
            set_writer: SetWriter::default(),
            dialog: None,
            message: None,
            may_close: false,
            placed: Placed::default(),
            results: Results::default(),
            previewed: None,
            advice: Advice::default(),
            way_advice: WayAdvice::default(),
            standing: None,
            site_advice: SiteAdvice::default(),
            site_sought: None,
            hang_points: HangPoints::default(),
            finding_at: None,
            pointed: None,
            rooms: Rooms::default(),
        };
        editor.fit();
        editor
    }

    /// A window on a site that was opened from a file, or from none.
    pub fn opened(site: Site, file: Option<PathBuf>, catalogue: Arc<Catalogue>) -> Self {
        Self {
            file,
            ..Self::new(site, catalogue)
        }
    }

    /// A window whose studies are there at once, so that a test needs no clock.
    pub fn for_test(site: Site, catalogue: Arc<Catalogue>) -> Self {
        Self {
            results: Results::inline(),
            space: SpaceView::inline(),
            advice: Advice::inline(),
            way_advice: WayAdvice::inline(),
            site_advice: SiteAdvice::inline(),
            ..Self::new(site, catalogue)
        }
    }

    /// The site as shown: what is committed, and the preview on top of it.
    pub fn site(&self) -> &Site {
        self.document.shown()
    }

    /// The site that a save would write.
    pub fn committed(&self) -> &Site {
        self.document.committed()
    }

    /// The site that a save would write, to be compared with.
    pub(crate) fn committed_arc(&self) -> &Arc<Site> {
        self.document.committed()
    }

    /// What is picked.
    pub fn selection(&self) -> &Selection {
        &self.selection
    }

    /// The window's title: the file's name, else the site's, and whether it is saved.
    pub fn title(&self) -> String {
        let site = self.document.committed();
        let name = match &self.file {
            Some(path) => path.file_stem().map_or_else(
                || path.display().to_string(),
                |stem| stem.to_string_lossy().into_owned(),
            ),
            None if site.name.is_empty() => "New site".to_owned(),
            None => site.name.clone(),
        };
        let edited = if self.document.is_saved() {
            ""
        } else {
            " (edited)"
        };
        format!("{name}{edited} - Rafterglow")
    }

    /// The view of the plan, for turning site points into screen points.
    pub fn camera(&self) -> &super::Camera {
        &self.canvas.camera
    }

    /// Chooses light or dark.
    pub fn set_theme(&mut self, theme: ThemeChoice) {
        self.theme = theme;
    }

    /// The stage that is open.
    pub fn stage(&self) -> Stage {
        self.stage
    }

    /// The tool that is taken up.
    pub fn tool(&self) -> ToolKind {
        self.tool
    }

    /// The building in space, as far as it has been worked out.
    pub(crate) fn structure(&self) -> Option<&Arc<Structure>> {
        self.results.study().map(|study| &study.structure)
    }

    /// The member spans, as far as they have been worked out.
    pub(crate) fn members(&self) -> &[Arc<Member>] {
        self.structure().map_or(&[], |it| &it.members)
    }

    /// Whether the study has anything to say.
    pub(crate) fn has_findings(&self) -> bool {
        !self.results.findings().is_empty()
    }

    /// From where the site is looked at.
    pub fn aspect(&self) -> Aspect {
        self.view.aspect
    }

    /// What the study has to say, worst first.
    pub fn findings(&self) -> &[Finding] {
        self.results.findings()
    }

    /// How many findings of a severity nobody accepted.
    pub fn count_findings(&self, severity: Severity) -> usize {
        self.results.count(severity)
    }

    /// The newest study.
    pub fn study(&self) -> Option<&Arc<Study>> {
        self.results.study()
    }

    /// Brings the whole site into view.
    pub(crate) fn fit(&mut self) {
        let site = self.document.shown();
        let all = extent_of_ids(site, &self.catalogue, &site.object_ids());
        let shown = if all.is_empty() {
            Extent::of([DVec2::ZERO, DVec2::new(40.0, 24.0)])
        } else {
            all
        };
        self.canvas.camera.fit(shown.least, shown.greatest);
    }

    /// One frame of the window.
    pub fn show(&mut self, ui: &mut Ui) {
        self.theme.apply(ui);
        self.results.take_in();
        self.placed.follow(self.document.shown(), &self.catalogue);
        self.selection.repair(self.document.shown());
        self.follow_hangers();
        self.follow_advice(ui);
        self.follow_rooms();
        let mut intents = Vec::new();
        keys::read(ui, self, &mut intents);
        self.lay_out(ui, &mut intents);
        panels::dialogs_ui(ui, self, &mut intents);
        let pointed = self.pointed.take();
        self.carry_out(intents);
        if pointed != self.pointed {
            // What the pointer came to in this frame is drawn in the next.
            ui.request_repaint();
        }
        self.tend_files(ui);
        if let Some(message) = self.set_writer.tend(ui) {
            self.message = Some(message);
        }
        let site = Arc::clone(self.document.shown());
        self.results.follow(&site, &self.catalogue, ui);
    }

    /// Keeps the picked hanger and the hang points those of the picked run.
    fn follow_hangers(&mut self) {
        let results = &self.results;
        self.selection
            .repair_hanger(|run| Some(results.run(run)?.hanging.hangers.len()));
        self.hang_points
            .follow(results.study(), self.selection.run());
    }

    /// Keeps what is suggested that of the only picked run.
    fn follow_advice(&mut self, ctx: &Context) {
        let run = match self.selection.single() {
            Some(ObjectId::Run(id)) => Some(id),
            _ => None,
        };
        self.advice.follow(&self.results, run, ctx);
        self.site_advice.take_in();
        self.way_advice.take_in();
        // A preview that ended is in the results until the next study comes.
        if !self.is_offer_shown() && self.results.are_current() {
            let findings = Arc::clone(self.results.findings());
            self.way_advice.list(&findings, run);
        }
        if !self.document.is_previewing() {
            if self.results.are_current() {
                self.standing = self.results.study().cloned();
            }
            self.way_advice.follow(&self.results, run, ctx);
        }
        // Of the site as it is, not of one that lags behind or is previewed.
        if self.results.are_current()
            && !self.document.is_previewing()
            && let Some(at_most) = self.site_sought.take()
        {
            self.site_advice.seek(&self.results, at_most, ctx);
        }
    }

    /// Whether a suggestion or a way out is previewed.
    pub(crate) const fn is_offer_shown(&self) -> bool {
        self.advice.shown.is_some() || self.way_advice.shown.is_some()
    }

    /// While a suggestion or a way out is previewed: the study of its run as it is.
    pub(crate) fn run_as_it_is(&self) -> Option<&Arc<RunStudy>> {
        let shown = self.is_offer_shown().then(|| self.hung_run()).flatten()?;
        self.standing.as_ref()?.run(&shown.run.id)
    }

    /// Keeps the room on all sides that of the runs that are looked at.
    fn follow_rooms(&mut self) {
        let picked = match self.selection.single() {
            Some(ObjectId::Run(id)) => Some(id),
            _ => None,
        };
        let pointed = self.pointed.and_then(|place| {
            let finding = self.results.findings().get(place)?;
            run_of(finding)
        });
        let looked_at = picked.into_iter().chain(pointed);
        self.rooms.follow(&self.results, looked_at);
    }

    /// The study of the only picked run.
    pub(crate) fn hung_run(&self) -> Option<&Arc<RunStudy>> {
        match self.selection.single()? {
            ObjectId::Run(id) => self.results.run(id),
            _ => None,
        }
    }

    fn lay_out(&mut self, ui: &mut Ui, intents: &mut Vec<Intent>) {
        // Panels rule their own edges.
        let bare = |size: f32, panel: Panel| {
            panel
                .exact_size(size)
                .resizable(false)
                .show_separator_line(false)
                .frame(Frame::NONE)
        };
        bare(TOP_BAR, Panel::top("top bar")).show(ui, |ui| panels::top_bar_ui(ui, self, intents));
        bare(STATUS_LINE, Panel::bottom("status line"))
            .show(ui, |ui| panels::status_line_ui(ui, self, intents));
        bare(STAGE_RAIL, Panel::left("stage rail"))
            .show(ui, |ui| panels::stage_rail_ui(ui, self, intents));
        bare(STAGE_PANEL, Panel::left("stage panel"))
            .show(ui, |ui| panels::stage_panel_ui(ui, self, intents));
        bare(INSPECTOR, Panel::right("inspector"))
            .show(ui, |ui| panels::inspector_ui(ui, self, intents));
        if self.view.profile {
            let height = (ui.available_height() * PROFILE_PART).clamp(PROFILE, 1.6 * PROFILE);
            bare(height, Panel::bottom("run profile")).show(ui, |ui| {
                let mut profile = std::mem::take(&mut self.profile);
                profile::profile_ui(ui, &mut profile, self, intents);
                self.profile = profile;
            });
        }
        CentralPanel::default().frame(Frame::NONE).show(ui, |ui| {
            let whole = ui.max_rect();
            let (head, body) = whole.split_top_bottom_at_y(whole.top() + ASPECTS);
            panels::aspects_ui(ui, head, self, intents);
            let aspect = self.view.aspect;
            let (plan, other) = match (aspect, self.view.beside) {
                (Aspect::Plan, _) => (Some(body), None),
                (_, false) => (None, Some(body)),
                (_, true) => {
                    let (left, right) = body.split_left_right_at_fraction(0.5);
                    (Some(left), Some(right))
                }
            };
            match plan {
                Some(rect) => {
                    ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| {
                        // The canvas changes what is half drawn while it reads the rest.
                        let mut canvas = std::mem::take(&mut self.canvas);
                        canvas::canvas_ui(ui, &mut canvas, self, intents);
                        self.canvas = canvas;
                    });
                }
                None => self.canvas.rest(),
            }
            if let Some(rect) = other {
                self.other_ui(ui, rect, intents);
                let rule = Stroke::new(1.0, Theme::of(ui).palette.rule);
                ui.painter().vline(rect.left(), rect.y_range(), rule);
            }
            panels::welcome_ui(ui, self, intents);
        });
    }
}

impl Editor {
    /// The section, or the site in space.
    fn other_ui(&mut self, ui: &mut Ui, rect: Rect, intents: &mut Vec<Intent>) {
        ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| {
            if self.view.aspect == Aspect::Section {
                let mut view = std::mem::take(&mut self.section);
                section::section_ui(ui, &mut view, self, intents);
                self.section = view;
            } else {
                let mut view = std::mem::take(&mut self.space);
                space::space_ui(ui, &mut view, self, intents);
                self.space = view;
            }
        });
    }
}

/// The stage at which work on a site goes on: heaters where there are some, else the
/// shell, where every site begins.
pub(super) fn first_stage(site: &Site) -> Stage {
    if site.scheme().runs.is_empty() {
        Stage::Shell
    } else {
        Stage::Runs
    }
}
