//! A job for each of the people who use the window, from its first frame to the papers
//! on disk. Every control is found by the name that a screen reader says.

mod contractor;
mod designer;
mod desk;
mod salesperson;
