//! Other programs as judges.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::LazyLock;

/// What the program printed. Panics if it is missing, naming the Debian package that
/// has it, or if it fails.
pub(crate) fn run(program: &str, package: &str, arguments: &[&str]) -> String {
    let output = match Command::new(program).args(arguments).output() {
        Ok(output) => output,
        Err(error) => panic!(
            "this test needs the program `{program}`, which can't be run ({error}); \
             install it: apt-get install {package}"
        ),
    };
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success(),
        "`{program} {}` failed:\n{errors}",
        arguments.join(" ")
    );
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A Python that finds ezdxf; asked once, since starting it takes a second. Debian's
/// package serves Debian's own Python, which need not be the first on the path.
static PYTHON: LazyLock<Option<&'static str>> = LazyLock::new(|| {
    ["python3", "/usr/bin/python3"].into_iter().find(|python| {
        let probe = Command::new(python).args(["-c", "import ezdxf"]).output();
        probe.is_ok_and(|output| output.status.success())
    })
});

/// What the Python script printed about the files, read with ezdxf.
pub(super) fn python_with_ezdxf(script: &str, files: &[PathBuf]) -> String {
    let Some(python) = *PYTHON else {
        panic!("this test needs Python with ezdxf; install it: apt-get install python3-ezdxf");
    };
    let arguments = ["-c", script]
        .into_iter()
        .chain(files.iter().map(|path| text(path)));
    run(python, "python3-ezdxf", &arguments.collect::<Vec<_>>())
}

/// Writes a file for other programs to read.
pub(super) fn file(name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, bytes).expect("the build's own folder for tests can be written");
    path
}

/// A path as an argument.
pub(crate) fn text(path: &Path) -> &str {
    path.to_str()
        .expect("the build's folder has a name in Unicode")
}
