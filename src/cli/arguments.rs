//! What can be typed.

use clap::{Args, Parser, Subcommand};
use std::path::PathBuf;

/// Lays out, hangs and checks overhead gas-fired radiant tube heaters.
#[derive(Debug, Parser)]
#[command(name = "rafterglow", version, args_conflicts_with_subcommands = true)]
pub struct Arguments {
    /// What to do; without a command the window opens.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// The site to open in the window; without it the last one, or the first sample.
    pub site: Option<PathBuf>,
    /// A catalogue file beside the embedded families; may be given several times.
    #[arg(long = "catalogue", value_name = "FILE")]
    pub catalogues: Vec<PathBuf>,
}

/// The commands that need no window.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Study a site and print its findings.
    Check(Check),
    /// Write the plan set.
    Sheets(Sheets),
    /// Draw a section of the site, to scale.
    Section(Section),
    /// Draw the site in space.
    Picture(Picture),
    /// Solve the hanging and write the chosen hangers back as kept ones.
    Hang(Hang),
    /// Take up what was measured of members on site, or print the checklist of those that
    /// hangers use and nobody has measured.
    Survey(Survey),
    /// Check a catalogue file and print it as a table.
    Catalogue(CatalogueFile),
    /// Say what a rule checks, why, its source and its limits.
    Explain(Explain),
}

/// Which site, scheme and catalogue.
#[derive(Debug, Args)]
pub struct SiteChoice {
    /// The site.
    pub site: PathBuf,
    /// The scheme to take instead of the shown one, by id or name.
    #[arg(long, value_name = "NAME")]
    pub scheme: Option<String>,
    /// A catalogue file beside the embedded families; may be given several times.
    #[arg(long = "catalogue", value_name = "FILE")]
    pub catalogues: Vec<PathBuf>,
}

/// `check`.
#[derive(Debug, Args)]
pub struct Check {
    /// Which site.
    #[command(flatten)]
    pub choice: SiteChoice,
    /// Print JSON instead of text.
    #[arg(long)]
    pub json: bool,
    /// Also print every hang point that was considered and every distance measured.
    #[arg(long)]
    pub full: bool,
    /// Also look for what cures each geometric breach, and for shifts that let a run be
    /// hung, or hung without cross channels.
    #[arg(long)]
    pub remedies: bool,
}

/// `sheets`.
#[derive(Debug, Args)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a flag of its own on the command line"
)]
pub struct Sheets {
    /// Which site.
    #[command(flatten)]
    pub choice: SiteChoice,
    /// The folder to write to; it is made where it is missing.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// Write PDF. All formats are written when none is named.
    #[arg(long)]
    pub pdf: bool,
    /// Write SVG, a file a sheet.
    #[arg(long)]
    pub svg: bool,
    /// Write PNG, a file a sheet.
    #[arg(long)]
    pub png: bool,
    /// Write DXF, a file for each sheet with a plan.
    #[arg(long)]
    pub dxf: bool,
    /// Write the tables as CSV.
    #[arg(long)]
    pub csv: bool,
    /// Date of issue to print, as it is to read.
    #[arg(long, value_name = "DATE", default_value = "")]
    pub date: String,
}

/// `section`.
#[derive(Debug, Args)]
pub struct Section {
    /// Which site.
    #[command(flatten)]
    pub choice: SiteChoice,
    /// The letter of a drawn section line; without it the first one, or, where none is
    /// drawn, a cut across the middle of a bay.
    pub name: Option<String>,
    /// The file to write; its ending says how: svg, pdf, png or dxf.
    #[arg(short, long, value_name = "FILE")]
    pub output: PathBuf,
    /// Dots per inch of a PNG.
    #[arg(long, value_name = "N", default_value_t = 300.0)]
    pub dpi: f64,
    /// Date of issue to print, as it is to read.
    #[arg(long, value_name = "DATE", default_value = "")]
    pub date: String,
}

/// `picture`.
#[derive(Debug, Args)]
pub struct Picture {
    /// Which site.
    #[command(flatten)]
    pub choice: SiteChoice,
    /// The file to write; its ending says how: png, pdf or svg.
    #[arg(short, long, value_name = "FILE")]
    pub output: PathBuf,
    /// The bearing at which one stands, degrees clockwise from plan north.
    #[arg(
        long,
        value_name = "BEARING",
        default_value_t = 215.0,
        allow_negative_numbers = true
    )]
    pub from: f64,
    /// How steeply one looks down, degrees: 0 level, 90 straight down.
    #[arg(long, value_name = "DEG", default_value_t = 28.0)]
    pub tilt: f64,
    /// Width of the picture on paper, mm.
    #[arg(long, value_name = "MM", default_value_t = 180.0)]
    pub width: f64,
    /// Dots per inch.
    #[arg(long, value_name = "N", default_value_t = 300.0)]
    pub dpi: f64,
}

/// `hang`.
#[derive(Debug, Args)]
pub struct Hang {
    /// Which site.
    #[command(flatten)]
    pub choice: SiteChoice,
    /// The file to write; without it the site itself is replaced.
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// First shift each run by at most this, along and across, to where it hangs for
    /// less, such as 0.3m or 1ft.
    #[arg(long, value_name = "LENGTH")]
    pub shift_at_most: Option<String>,
}

/// `survey`.
#[derive(Debug, Args)]
pub struct Survey {
    /// Which site.
    #[command(flatten)]
    pub choice: SiteChoice,
    /// What was measured, as comma-separated values with the headings member, from,
    /// distance, height, height at, missing, note; without it the checklist is printed.
    pub file: Option<PathBuf>,
    /// The file to write; without it the site itself is replaced.
    #[arg(short, long, value_name = "FILE", requires = "file")]
    pub output: Option<PathBuf>,
}

/// `catalogue`.
#[derive(Debug, Args)]
pub struct CatalogueFile {
    /// The catalogue file.
    pub file: PathBuf,
}

/// `explain`.
#[derive(Debug, Args)]
pub struct Explain {
    /// The rule; without it all rules are listed.
    pub rule: Option<String>,
}
