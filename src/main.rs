//! Arguments in, exit status out.
#![forbid(unsafe_code)]

fn main() -> std::process::ExitCode {
    pleach::commands::run(std::env::args_os().collect())
}
