use clap_complete::Shell;

/// The completions for a shell.
pub fn script(shell: Shell) -> String {
    let mut definition = super::definition();
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut definition, "pleach", &mut script);
    let mut script = String::from_utf8_lossy(&script).into_owned();
    if shell == Shell::Fish {
        script.push_str(&arguments_for_fish(&definition));
    }
    script
}

/// The values that a command's argument may have. The generator offers them in all shells but fish,
/// where files would be offered instead.
fn arguments_for_fish(definition: &clap::Command) -> String {
    let mut lines = String::new();
    for command in definition.get_subcommands() {
        for argument in command.get_positionals() {
            let values: Vec<_> =
                argument.get_possible_values().iter().map(|value| value.get_name().to_owned()).collect();
            if !values.is_empty() {
                let (name, values) = (command.get_name(), values.join(" "));
                let line =
                    format!("complete -c pleach -n \"__fish_pleach_using_subcommand {name}\" -f -a \"{values}\"\n");
                lines.push_str(&line);
            }
        }
    }
    lines
}
