//! The words that every report carries.

/// What the program does not decide.
pub const CAUTIONS: &[&str] = &[
    "The heater's certified installation manual and label, local codes and the authority having jurisdiction have the last word.",
    "The structure's capacity is for the building's engineer to confirm before anything is hung.",
    "Installation and gas work are for licensed and qualified persons, under permit.",
    "Clearances are minimums. They do not protect what is harmed by little heat: plastics, foam, aerosols, parked vehicles.",
    "What is not known is marked \"unknown: engineer\" or \"verify on site\"; it is never taken as safe.",
];
