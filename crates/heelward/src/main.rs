//! The `heelward` command.

fn main() -> std::process::ExitCode {
    heelward::main()
}
