//! The pages of the plan set: what each one shows of a study.
//!
//! ```text
//! PageInput --[PAGES]--> Vec<Draft> --set::plan_set()--> Vec<Sheet>
//! ```
//!
//! A page is a function that draws everything but the border and the title block;
//! those need to know how many sheets there are, and are drawn by the set. Adding a
//! page is one file and one line in [`set`].

mod block;
mod bounds;
mod channels;
pub mod csv;
mod cut_list;
mod datum;
pub mod figures;
mod findings;
mod fit;
mod foot;
mod frame;
mod hangers;
mod labels;
mod legend;
mod loads;
mod notes;
mod plan;
mod running;
mod scale_bar;
mod schedule;
mod sections;
pub mod set;
mod space;
mod spread;
mod survey;
mod table;
mod table_page;
mod title_block;
mod wording;

pub use figures::Figures;
pub use set::{metadata, plan_set, section_sheet};
pub use space::{PictureOrder, picture};

use crate::catalogue::Catalogue;
use crate::findings::Finding;
use crate::sheets::mark::Sheet;
use crate::sheets::metadata::IssueDate;
use crate::site::Site;
use crate::study::Study;

/// What every page is drawn from.
#[derive(Debug, Clone, Copy)]
pub struct PageInput<'a> {
    /// What the user entered.
    pub site: &'a Site,
    /// The families at hand.
    pub catalogue: &'a Catalogue,
    /// What was computed of both.
    pub study: &'a Study,
    /// What the rules say of the study.
    pub findings: &'a [Finding],
    /// Day of issue; sheets without one are not dated.
    pub date: Option<IssueDate>,
}

/// A kind of page: one or more sheets, or none where it has nothing to show.
type Page = fn(&PageInput<'_>) -> Vec<Draft>;

/// A sheet before it is known which of how many it is.
#[derive(Debug, Clone, PartialEq)]
struct Draft {
    /// Everything but border and title block. Its id is the page's name:
    /// `hanging-plan`.
    sheet: Sheet,
    /// What its title block says beside the title; empty for nothing.
    supplement: String,
    /// To which scale it is drawn; empty for a table.
    scale: String,
}
