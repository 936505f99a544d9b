//! Everything that can be asked of the window, in one list: menus, keys, the command
//! finder and the tests all derive from it, so that nothing can be reached by one
//! route only and no two names of one thing drift apart.

use super::Editor;
use super::arrange::{Edge, Way};
use super::stage::Stage;
use super::tools::ToolKind;
use super::view::{Aspect, Layer};
use eframe::egui::{Key, KeyboardShortcut, Modifiers};

/// Something that can be asked of the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Command {
    /// An empty site.
    New,
    /// A site from a file.
    Open,
    /// The site into its file.
    Save,
    /// The site into another file.
    SaveAs,
    /// The last step back.
    Undo,
    /// The step that was taken back, again.
    Redo,
    /// Everything of the stage picked.
    SelectAll,
    /// Nothing picked, nothing half drawn.
    LetGo,
    /// The next object picked.
    PickNext,
    /// The one before picked.
    PickPrevious,
    /// What is picked removed.
    Delete,
    /// What is picked, again, beside itself.
    Duplicate,
    /// What is picked, again and again along a direction.
    Repeat,
    /// What is picked turned by 90 degrees clockwise.
    TurnQuarter,
    /// What is picked turned by an angle.
    TurnBy,
    /// Burner and exhaust of the picked runs swapped.
    EndForEnd,
    /// What is picked moved by one step.
    Nudge(Way),
    /// What is picked moved by one small step.
    NudgeFinely(Way),
    /// What is picked moved until its edges or centres are in line.
    LineUp(Edge),
    /// What is picked spread out evenly, west to east.
    SpaceEvenlyAcross,
    /// What is picked spread out evenly, south to north.
    SpaceEvenlyUp,
    /// Hangers of the picked runs kept where they are, or chosen again.
    LockHangers,
    /// The next hanger of the picked run picked.
    NextHanger,
    /// The hanger before picked.
    PreviousHanger,
    /// One hanger more, in the widest gap of the picked run.
    AddHanger,
    /// The whole site in view.
    Fit,
    /// What is picked in view.
    FitSelection,
    /// Nearer.
    ZoomIn,
    /// Farther.
    ZoomOut,
    /// A layer hidden or shown.
    ToggleLayer(Layer),
    /// Snapping held off or on.
    ToggleSnapping,
    /// The run profile hidden or shown.
    ToggleProfile,
    /// Plan, section, or the site in space.
    Look(Aspect),
    /// The plan kept beside the section or the site in space.
    ToggleBeside,
    /// The section or the view of the site in space, as a file.
    SavePicture,
    /// Metres or feet and inches.
    ToggleUnits,
    /// Light or dark.
    ToggleTheme,
    /// The next finding, where it is.
    NextFinding,
    /// The finding before, where it is.
    PreviousFinding,
    /// Any of these, by a word of its name.
    FindCommand,
    /// A tool taken up.
    Take(ToolKind),
    /// A stage opened.
    Enter(Stage),
}

/// Where a command stands in the menus.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Files.
    File,
    /// Steps, picking, removing.
    Edit,
    /// Moving what is picked.
    Arrange,
    /// What is shown.
    View,
    /// Tools.
    Tools,
    /// Stages.
    Stages,
}

impl Group {
    /// All groups, in the order of the menus.
    pub const ALL: [Self; 6] = [
        Self::File,
        Self::Edit,
        Self::Arrange,
        Self::View,
        Self::Tools,
        Self::Stages,
    ];

    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::File => "File",
            Self::Edit => "Edit",
            Self::Arrange => "Arrange",
            Self::View => "View",
            Self::Tools => "Tools",
            Self::Stages => "Stages",
        }
    }
}

const NONE: Modifiers = Modifiers::NONE;
const SHIFT: Modifiers = Modifiers::SHIFT;
const MAIN: Modifiers = Modifiers::COMMAND;
const MAIN_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
const ALT: Modifiers = Modifiers::ALT;
const ALT_SHIFT: Modifiers = Modifiers::ALT.plus(Modifiers::SHIFT);

impl Command {
    /// All commands, in the order of the menus.
    pub fn all() -> Vec<Self> {
        let mut all = vec![
            Self::New,
            Self::Open,
            Self::Save,
            Self::SaveAs,
            Self::Undo,
            Self::Redo,
            Self::SelectAll,
            Self::LetGo,
            Self::PickNext,
            Self::PickPrevious,
            Self::Delete,
            Self::Duplicate,
            Self::Repeat,
            Self::TurnQuarter,
            Self::TurnBy,
            Self::EndForEnd,
            Self::LockHangers,
            Self::NextHanger,
            Self::PreviousHanger,
            Self::AddHanger,
        ];
        all.extend(Edge::ALL.map(Self::LineUp));
        all.extend([Self::SpaceEvenlyAcross, Self::SpaceEvenlyUp]);
        all.extend(Way::ALL.map(Self::Nudge));
        all.extend(Way::ALL.map(Self::NudgeFinely));
        all.extend([
            Self::Fit,
            Self::FitSelection,
            Self::ZoomIn,
            Self::ZoomOut,
            Self::NextFinding,
            Self::PreviousFinding,
            Self::FindCommand,
            Self::ToggleSnapping,
            Self::ToggleProfile,
            Self::ToggleUnits,
            Self::ToggleTheme,
        ]);
        all.extend(Aspect::ALL.map(Self::Look));
        all.extend([Self::ToggleBeside, Self::SavePicture]);
        all.extend(Layer::ALL.map(Self::ToggleLayer));
        all.extend(ToolKind::ALL.map(Self::Take));
        all.extend(Stage::ALL.map(Self::Enter));
        all
    }

    /// Its name; it ends in an ellipsis where a question follows.
    pub fn label(self) -> String {
        match self {
            Self::New => "New site".to_owned(),
            Self::Open => "Open a site…".to_owned(),
            Self::Save => "Save".to_owned(),
            Self::SaveAs => "Save under another name…".to_owned(),
            Self::Undo => "Undo".to_owned(),
            Self::Redo => "Redo".to_owned(),
            Self::SelectAll => "Pick everything of this stage".to_owned(),
            Self::LetGo => "Let go".to_owned(),
            Self::PickNext => "Pick the next object".to_owned(),
            Self::PickPrevious => "Pick the previous object".to_owned(),
            Self::Delete => "Remove".to_owned(),
            Self::Duplicate => "Duplicate".to_owned(),
            Self::Repeat => "Repeat in a row…".to_owned(),
            Self::TurnQuarter => "Turn by a quarter".to_owned(),
            Self::TurnBy => "Turn by an angle…".to_owned(),
            Self::EndForEnd => "Turn end for end".to_owned(),
            Self::LockHangers => "Lock or free the hangers".to_owned(),
            Self::NextHanger => "Pick the next hanger".to_owned(),
            Self::PreviousHanger => "Pick the previous hanger".to_owned(),
            Self::AddHanger => "Add a hanger".to_owned(),
            Self::LineUp(edge) => edge.label().to_owned(),
            Self::SpaceEvenlyAcross => "Space evenly, west to east".to_owned(),
            Self::SpaceEvenlyUp => "Space evenly, south to north".to_owned(),
            Self::Nudge(way) => format!("Nudge {}", way.label()),
            Self::NudgeFinely(way) => format!("Nudge finely {}", way.label()),
            Self::Fit => "Whole site in view".to_owned(),
            Self::FitSelection => "Picked objects in view".to_owned(),
            Self::ZoomIn => "Nearer".to_owned(),
            Self::ZoomOut => "Farther".to_owned(),
            Self::ToggleLayer(layer) => format!("Show or hide {}", layer.label()),
            Self::ToggleSnapping => "Snap or don't".to_owned(),
            Self::ToggleProfile => "Show or hide the run profile".to_owned(),
            Self::Look(Aspect::Plan) => "Look at the plan".to_owned(),
            Self::Look(Aspect::Section) => "Look at a section".to_owned(),
            Self::Look(Aspect::Space) => "Look in 3-D".to_owned(),
            Self::ToggleBeside => "Keep the plan beside, or don't".to_owned(),
            Self::SavePicture => "Save what is shown as a picture…".to_owned(),
            Self::ToggleUnits => "Metric or feet and inches".to_owned(),
            Self::ToggleTheme => "Light or dark".to_owned(),
            Self::NextFinding => "Go to the next finding".to_owned(),
            Self::PreviousFinding => "Go to the previous finding".to_owned(),
            Self::FindCommand => "Find a command…".to_owned(),
            Self::Take(tool) => tool.label().to_owned(),
            Self::Enter(stage) => stage.label().to_owned(),
        }
    }

    /// What it does, in one sentence without a full stop.
    pub fn explanation(self) -> String {
        match self {
            Self::New => "Begin an empty site".to_owned(),
            Self::Open => "Read a site from a file".to_owned(),
            Self::Save => "Write the site into its file".to_owned(),
            Self::SaveAs => "Write the site into another file and go on in that one".to_owned(),
            Self::Undo => "Take the last step back".to_owned(),
            Self::Redo => "Do the step that was taken back again".to_owned(),
            Self::SelectAll => "Pick every object that this stage puts forward".to_owned(),
            Self::LetGo => "Drop what is half drawn, else the tool, else what is picked".to_owned(),
            Self::PickNext => {
                "Pick the object of this stage that follows the picked one".to_owned()
            }
            Self::PickPrevious => {
                "Pick the object of this stage that precedes the picked one".to_owned()
            }
            Self::Delete => "Take what is picked out of the site".to_owned(),
            Self::Duplicate => "Put a copy of what is picked beside it".to_owned(),
            Self::Repeat => {
                "Copy what is picked a number of times, at a spacing, along a direction".to_owned()
            }
            Self::TurnQuarter => "Turn what is picked by 90° clockwise".to_owned(),
            Self::TurnBy => "Turn what is picked by any angle".to_owned(),
            Self::EndForEnd => {
                "Swap burner and exhaust; the reflector keeps facing the same way".to_owned()
            }
            Self::LockHangers => {
                "Keep the hangers of the picked runs where they are, or let them be chosen again"
                    .to_owned()
            }
            Self::NextHanger => {
                "Pick the hanger of the picked run that follows; arrows then move it".to_owned()
            }
            Self::PreviousHanger => {
                "Pick the hanger of the picked run that comes before; arrows then move it"
                    .to_owned()
            }
            Self::AddHanger => {
                "Put one more into the widest gap of the picked run and keep them all".to_owned()
            }
            Self::LineUp(edge) => edge.explanation().to_owned(),
            Self::SpaceEvenlyAcross => {
                "Leave the outermost two where they are and part the others evenly".to_owned()
            }
            Self::SpaceEvenlyUp => {
                "Leave the outermost two where they are and part the others evenly".to_owned()
            }
            Self::Nudge(way) => format!("Move what is picked one step {}", way.label()),
            Self::NudgeFinely(way) => format!("Move what is picked one small step {}", way.label()),
            Self::Fit => "Bring the whole site into view".to_owned(),
            Self::FitSelection => "Bring what is picked into view".to_owned(),
            Self::ZoomIn => "Enlarge the plan".to_owned(),
            Self::ZoomOut => "Make the plan smaller".to_owned(),
            Self::ToggleLayer(layer) => {
                format!("Show {} on the plan, or leave them out", layer.label())
            }
            Self::ToggleSnapping => {
                "Let the pointer catch on lines, members and corners, or move freely".to_owned()
            }
            Self::ToggleProfile => "The picked run from the side, under the plan".to_owned(),
            Self::Look(aspect) => aspect.explanation().to_owned(),
            Self::ToggleBeside => {
                "Work on the plan while the section or the 3-D view follows".to_owned()
            }
            Self::SavePicture => {
                "Write the section, or the 3-D view, as PNG, SVG, PDF or DXF".to_owned()
            }
            Self::ToggleUnits => "Change what is typed and read; nothing that is kept".to_owned(),
            Self::ToggleTheme => "Change the colours of the window".to_owned(),
            Self::NextFinding => {
                "Pick what the next finding is about and show where it is".to_owned()
            }
            Self::PreviousFinding => {
                "Pick what the previous finding is about and show where it is".to_owned()
            }
            Self::FindCommand => "Type a word of a command's name to do it".to_owned(),
            Self::Take(tool) => tool.explanation().to_owned(),
            Self::Enter(stage) => stage.explanation().to_owned(),
        }
    }

    /// The keys that ask for it.
    pub fn key(self) -> Option<KeyboardShortcut> {
        let (modifiers, key) = match self {
            Self::New => (MAIN, Key::N),
            Self::Open => (MAIN, Key::O),
            Self::Save => (MAIN, Key::S),
            Self::SaveAs => (MAIN_SHIFT, Key::S),
            Self::Undo => (MAIN, Key::Z),
            Self::Redo => (MAIN_SHIFT, Key::Z),
            Self::SelectAll => (MAIN, Key::A),
            Self::LetGo => (NONE, Key::Escape),
            Self::PickNext => (NONE, Key::PageDown),
            Self::PickPrevious => (NONE, Key::PageUp),
            Self::Delete => (NONE, Key::Delete),
            Self::Duplicate => (MAIN, Key::D),
            Self::Repeat => (NONE, Key::A),
            Self::TurnQuarter => (NONE, Key::Q),
            Self::TurnBy => (SHIFT, Key::Q),
            Self::EndForEnd => (NONE, Key::T),
            Self::LockHangers => (NONE, Key::K),
            Self::NextHanger => (NONE, Key::H),
            Self::PreviousHanger => (SHIFT, Key::H),
            Self::AddHanger => (NONE, Key::Insert),
            Self::LineUp(edge) => match edge {
                Edge::West => (ALT, Key::ArrowLeft),
                Edge::East => (ALT, Key::ArrowRight),
                Edge::North => (ALT, Key::ArrowUp),
                Edge::South => (ALT, Key::ArrowDown),
                Edge::MiddleAcross | Edge::MiddleUp => return None,
            },
            Self::SpaceEvenlyAcross => (ALT_SHIFT, Key::ArrowRight),
            Self::SpaceEvenlyUp => (ALT_SHIFT, Key::ArrowUp),
            Self::Nudge(way) => (NONE, way.key()),
            Self::NudgeFinely(way) => (SHIFT, way.key()),
            Self::Fit => (NONE, Key::Home),
            Self::FitSelection => (SHIFT, Key::Home),
            Self::ZoomIn => (NONE, Key::Plus),
            Self::ZoomOut => (NONE, Key::Minus),
            Self::ToggleSnapping => (NONE, Key::X),
            Self::ToggleProfile => (MAIN, Key::J),
            Self::Look(Aspect::Plan) => (NONE, Key::F5),
            Self::Look(Aspect::Section) => (NONE, Key::F6),
            Self::Look(Aspect::Space) => (NONE, Key::F7),
            Self::ToggleBeside => (NONE, Key::F9),
            Self::SavePicture => (MAIN, Key::E),
            Self::ToggleUnits => (MAIN, Key::U),
            Self::ToggleTheme => (MAIN_SHIFT, Key::L),
            Self::NextFinding => (NONE, Key::F8),
            Self::PreviousFinding => (SHIFT, Key::F8),
            Self::FindCommand => (MAIN, Key::F),
            Self::Take(tool) => (NONE, tool.key()),
            Self::Enter(stage) => (
                MAIN,
                match stage {
                    Stage::Shell => Key::Num1,
                    Stage::Steel => Key::Num2,
                    Stage::Obstructions => Key::Num3,
                    Stage::Runs => Key::Num4,
                    Stage::Sheets => Key::Num5,
                },
            ),
            Self::ToggleLayer(_) => return None,
        };
        Some(KeyboardShortcut::new(modifiers, key))
    }

    /// Where it stands in the menus.
    pub const fn group(self) -> Group {
        match self {
            Self::New | Self::Open | Self::Save | Self::SaveAs => Group::File,
            Self::Undo
            | Self::Redo
            | Self::SelectAll
            | Self::LetGo
            | Self::PickNext
            | Self::PickPrevious
            | Self::Delete
            | Self::Duplicate => Group::Edit,
            Self::Repeat
            | Self::TurnQuarter
            | Self::TurnBy
            | Self::EndForEnd
            | Self::LockHangers
            | Self::NextHanger
            | Self::PreviousHanger
            | Self::AddHanger
            | Self::LineUp(_)
            | Self::SpaceEvenlyAcross
            | Self::SpaceEvenlyUp
            | Self::Nudge(_)
            | Self::NudgeFinely(_) => Group::Arrange,
            Self::Fit
            | Self::FitSelection
            | Self::ZoomIn
            | Self::ZoomOut
            | Self::ToggleLayer(_)
            | Self::ToggleSnapping
            | Self::ToggleProfile
            | Self::ToggleUnits
            | Self::Look(_)
            | Self::ToggleBeside
            | Self::SavePicture
            | Self::ToggleTheme
            | Self::NextFinding
            | Self::PreviousFinding
            | Self::FindCommand => Group::View,
            Self::Take(_) => Group::Tools,
            Self::Enter(_) => Group::Stages,
        }
    }

    /// Whether it would do anything now.
    pub fn is_possible(self, editor: &Editor) -> bool {
        let picked = editor.selection.ids.len();
        match self {
            Self::Undo => editor.document.undo_name().is_some(),
            Self::Redo => editor.document.redo_name().is_some(),
            Self::Delete
            | Self::Duplicate
            | Self::Repeat
            | Self::TurnQuarter
            | Self::TurnBy
            | Self::Nudge(_)
            | Self::NudgeFinely(_)
            | Self::FitSelection => 1 <= picked,
            Self::LineUp(_) => 2 <= picked,
            Self::SpaceEvenlyAcross | Self::SpaceEvenlyUp => 3 <= picked,
            Self::EndForEnd | Self::LockHangers => editor.selection.run().is_some(),
            Self::NextHanger | Self::PreviousHanger => editor
                .hung_run()
                .is_some_and(|run| !run.hanging.hangers.is_empty()),
            Self::AddHanger => editor.hung_run().is_some(),
            Self::NextFinding | Self::PreviousFinding => editor.has_findings(),
            Self::New
            | Self::Open
            | Self::Save
            | Self::SaveAs
            | Self::SelectAll
            | Self::LetGo
            | Self::PickNext
            | Self::PickPrevious
            | Self::Fit
            | Self::ZoomIn
            | Self::ZoomOut
            | Self::ToggleLayer(_)
            | Self::ToggleSnapping
            | Self::ToggleProfile
            | Self::Look(_)
            | Self::ToggleUnits
            | Self::ToggleTheme
            | Self::FindCommand
            | Self::Take(_)
            | Self::Enter(_) => true,
            Self::ToggleBeside | Self::SavePicture => editor.view.aspect != Aspect::Plan,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn no_two_commands_share_a_name_or_a_key() {
        let mut names = BTreeSet::new();
        let mut keys = Vec::new();
        for command in Command::all() {
            assert!(names.insert(command.label()), "{}", command.label());
            if let Some(key) = command.key() {
                assert!(!keys.contains(&key), "{} shares its key", command.label());
                keys.push(key);
            }
        }
    }

    #[test]
    fn every_command_says_what_it_does_and_not_just_its_name() {
        for command in Command::all() {
            let explanation = command.explanation();
            assert!(!explanation.is_empty() && !explanation.ends_with('.'));
            assert_ne!(explanation, command.label());
        }
    }
}
