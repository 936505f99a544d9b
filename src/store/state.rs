//! The folder for what lasts between sessions and is no document.

use super::StoreError;
use std::env;
use std::ffi::OsString;
use std::path::PathBuf;

/// Where recovery copies and the list of recent files are kept.
///
/// `RAFTERGLOW_STATE_DIR` where it is set; else the folder `rafterglow` under
/// `XDG_STATE_HOME`, under `~/.local/state`, or under `LOCALAPPDATA`.
///
/// # Errors
/// Where none of these variables is set.
pub fn state_dir() -> Result<PathBuf, StoreError> {
    choose(|name| env::var_os(name)).ok_or(StoreError::NoStateDir)
}

fn choose(var: impl Fn(&str) -> Option<OsString>) -> Option<PathBuf> {
    // The XDG base directory specification has relative paths ignored.
    let absolute = |name: &str| var(name).map(PathBuf::from).filter(|it| it.is_absolute());
    let ours = |it: PathBuf| it.join("rafterglow");
    var("RAFTERGLOW_STATE_DIR")
        .filter(|it| !it.is_empty())
        .map(PathBuf::from)
        .or_else(|| absolute("XDG_STATE_HOME").map(ours))
        .or_else(|| absolute("HOME").map(|it| ours(it.join(".local/state"))))
        .or_else(|| absolute("LOCALAPPDATA").map(ours))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(vars: &[(&str, &str)], expected: Option<&str>) {
        let found = choose(|name| {
            vars.iter()
                .find(|(known, _)| *known == name)
                .map(|(_, value)| OsString::from(value))
        });
        assert_eq!(found, expected.map(PathBuf::from), "{vars:?}");
    }

    #[test]
    fn the_first_folder_that_is_named_is_taken() {
        let home = ("HOME", "/home/anna");
        check(&[], None);
        check(&[home], Some("/home/anna/.local/state/rafterglow"));
        let xdg = ("XDG_STATE_HOME", "/var/anna");
        check(&[home, xdg], Some("/var/anna/rafterglow"));
        let relative = ("XDG_STATE_HOME", "state");
        check(
            &[home, relative],
            Some("/home/anna/.local/state/rafterglow"),
        );
        let own = ("RAFTERGLOW_STATE_DIR", "/tmp/trial");
        check(&[home, xdg, own], Some("/tmp/trial"));
    }
}
