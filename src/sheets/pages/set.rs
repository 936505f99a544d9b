//! The whole plan set, in order and numbered.

use crate::sheets::mark::Sheet;
use crate::sheets::metadata::Metadata;
use crate::site::SectionLine;

use super::title_block::{self, TitleBlock};
use super::{
    Draft, Page, PageInput, channels, cut_list, findings, frame, loads, plan, schedule, sections,
    survey, wording,
};

/// The pages in the order of the set.
const PAGES: &[Page] = &[
    plan::hanging_plan,
    sections::sections,
    schedule::hanging_schedule,
    survey::survey_differences,
    channels::list,
    cut_list::list,
    loads::table,
    findings::findings,
];

/// Every sheet of a plan set, bordered, titled and numbered.
#[must_use]
pub fn plan_set(input: &PageInput<'_>) -> Vec<Sheet> {
    let drafts: Vec<Draft> = PAGES.iter().flat_map(|page| page(input)).collect();
    let n_sheets = drafts.len();
    let finished = drafts.into_iter().enumerate();
    finished
        .map(|(index, draft)| finish(input, draft, index + 1, n_sheets))
        .collect()
}

/// What the set's files say of themselves.
#[must_use]
pub fn metadata(input: &PageInput<'_>) -> Metadata {
    let site = input.site;
    Metadata {
        title: wording::project(site),
        subject: format!("Hanging plan set, {}", wording::scheme(site)),
        author: site.sheets.made_by.clone(),
        language: "en".to_owned(),
        issued: input.date,
    }
}

/// The sheet of one section alone, bordered and titled: `section A-A`.
#[must_use]
pub fn section_sheet(input: &PageInput<'_>, line: &SectionLine) -> Sheet {
    finish(input, sections::section(input, line), 1, 1)
}

fn finish(input: &PageInput<'_>, draft: Draft, number: usize, n_sheets: usize) -> Sheet {
    let settings = &input.site.sheets;
    let mut sheet = draft.sheet;
    frame::draw(&mut sheet);
    let says = TitleBlock {
        owner: settings.owner.clone(),
        project: wording::project(input.site),
        document: settings.document_number.clone(),
        title: sheet.title.clone(),
        supplement: draft.supplement,
        made_by: settings.made_by.clone(),
        approved_by: settings.approved_by.clone(),
        date: input.date.map_or_else(String::new, |date| date.to_string()),
        revision: settings.revision.clone(),
        status: settings.status.clone(),
        scale: draft.scale,
        sheet: format!("{number} of {n_sheets}"),
        paper: sheet.size.format.name().to_owned(),
    };
    let place = title_block::place(sheet.size);
    let block = title_block::draw(&says, place.width_mm());
    let corner = crate::sheets::paper::PaperPoint::new(place.left, place.top);
    block.at(corner).for_each(|mark| sheet.draw(mark));
    sheet.id = format!("{number:02}-{}", sheet.id);
    sheet
}
