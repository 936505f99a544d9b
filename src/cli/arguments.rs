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
