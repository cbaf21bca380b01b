//! Arguments in, exit status out.
#![forbid(unsafe_code)]

fn main() -> std::process::ExitCode {
    std::process::ExitCode::SUCCESS
}
