//! Arguments in, exit status out.

fn main() -> std::process::ExitCode {
    pleach::commands::run(std::env::args_os().collect())
}
