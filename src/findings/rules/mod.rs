//! One rule per file.
