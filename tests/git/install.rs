//! `install`, `uninstall` and `doctor`.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use tempfile::TempDir;

use crate::support::{PLEACH, Ran, Repo, TIDES, both, contents, forked, forked_without_pleach, program, run};

const FILE: &str = "src/tides.py";

fn without_objects(repo: &Repo) -> Vec<(PathBuf, Vec<u8>)> {
    contents(&repo.dir).into_iter().filter(|(path, _)| !path.starts_with(".git/objects")).collect()
}

#[test]
fn uninstall_leaves_every_file_as_it_was_before_install() {
    let configs: [&dyn Fn(String) -> String; 6] = [
        &|text| text,
        &|text| text.trim_end().to_owned(),
        &|text| text + "# the last line is a comment\n",
        &|text| text + "\n\n\n",
        &|text| text + "[merge]\n\tconflictStyle = diff3\n[merge \"other\"]\n\tdriver = true\n",
        &|text| text.replace('\n', "\r\n"),
    ];
    let attributes = [
        None,
        Some(""),
        Some("*.png binary\n"),
        Some("# ours\n*.png binary"),
        Some("*.png binary\r\n\r\n"),
        Some("\n"),
    ];
    let first_config = attributes.iter().map(|text| (0, *text));
    let first_attributes = (1..configs.len()).map(|i| (i, attributes[0]));
    for (i, text) in first_config.chain(first_attributes) {
        for option in [None, Some("--shared")] {
            let dir = TempDir::new().unwrap();
            let repo = Repo::init(dir.path().join("fork"));
            repo.write(".git/config", configs[i](repo.read(".git/config")));
            if let Some(text) = text {
                repo.write(".git/info/attributes", text).write(".gitattributes", text);
            }
            fs::create_dir_all(repo.dir.join(".git/info")).unwrap();
            let before = without_objects(&repo);
            for _ in 0..2 {
                let ran = repo.pleach(["install"].into_iter().chain(option));
                assert_eq!(ran.status, Some(0), "{ran:?}");
                assert_eq!(repo.ok(["check-attr", "merge", "a.py"]), "a.py: merge: pleach\n");
            }
            let ran = repo.pleach(["uninstall"].into_iter().chain(option));
            assert_eq!(ran.status, Some(0), "{ran:?}");
            assert_eq!(without_objects(&repo), before, "config {i}, attributes {text:?}, {option:?}");
        }
    }
}

#[test]
fn installing_twice_changes_nothing_and_says_so() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.install();
    let before = without_objects(&repo);
    let ran = repo.pleach(["install"]);
    assert_eq!(without_objects(&repo), before);
    let lines = || ran.out.lines().filter(|l| l.starts_with("  "));
    assert!(lines().count() > 5 && lines().all(|l| l.ends_with("(already there)")), "{ran:?}");
}

#[test]
fn install_shows_exactly_what_it_wrote() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    let ran = repo.pleach(["install"]);
    let mut shown: Vec<_> = ran.out.lines().filter_map(|l| l.strip_prefix("  ")).map(str::to_owned).collect();
    let config = repo.ok(["config", "--local", "--get-regexp", "^merge[.]pleach[.]"]);
    let mut written: Vec<_> = config.lines().map(|l| l.replacen(' ', " = ", 1)).collect();
    let attributes = repo.read(".git/info/attributes");
    written.extend(attributes.lines().filter(|l| !l.starts_with('#')).map(str::to_owned));
    shown.sort();
    written.sort();
    assert_eq!(shown, written);
    assert!(ran.out.contains(".git/config\n") && ran.out.contains(".git/info/attributes\n"));
}

#[test]
fn what_is_out_of_date_is_renewed_in_place() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.write(".git/info/attributes", "*.png binary\n").install();
    repo.ok(["config", "merge.pleach.driver", "/old/pleach driver %O %A %B"]);
    let old = repo.read(".git/info/attributes").replace("*.py merge=pleach\n", "");
    repo.write(".git/info/attributes", old);
    repo.install();
    assert!(repo.ok(["config", "merge.pleach.driver"]).contains(PLEACH));
    let text = repo.read(".git/info/attributes");
    assert_eq!(text.matches("*.py merge=pleach").count(), 1, "{text}");
    repo.pleach(["uninstall"]);
    assert_eq!(repo.read(".git/info/attributes"), "*.png binary\n");
    assert_eq!(repo.run(["config", "--get-regexp", "pleach"]).out, "");
}

#[test]
fn lines_of_other_people_stay_and_those_below_ours_win() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.write(".git/info/attributes", "# generated\nvendor/** -merge\n").install();
    assert!(repo.read(".git/info/attributes").ends_with("# generated\nvendor/** -merge\n"));
    assert_eq!(repo.ok(["check-attr", "merge", "vendor/a.py"]), "vendor/a.py: merge: unset\n");
    assert_eq!(repo.ok(["check-attr", "merge", "a.py"]), "a.py: merge: pleach\n");
    let text = repo.read(".git/info/attributes") + "*.tide merge=pleach\n";
    repo.write(".git/info/attributes", &text);
    let ran = repo.pleach(["uninstall"]);
    assert_eq!(repo.read(".git/info/attributes"), "# generated\nvendor/** -merge\n*.tide merge=pleach\n");
    assert!(ran.out.contains(".git/info/attributes:3 names pleach and was not written by pleach install"), "{ran:?}");
}

#[test]
fn decisions_that_install_overrules_are_named() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.write(".gitattributes", "vendor/*.py -merge\nlist.py merge=union\n");
    repo.write("vendor/a.py", "").write("list.py", "").write("b.py", "").commit("Vendor");
    for (directory, attributes) in [("", ".git/info/attributes"), ("vendor", "/.git/info/attributes")] {
        let ran = repo.pleach_in(directory, ["install"]);
        let named = format!("{attributes}:\n  /list.py merge=union\n  /vendor/a.py -merge\n");
        assert!(ran.out.contains("To keep it, add to ") && ran.out.contains(&named), "{ran:?}");
        assert!(!ran.out.contains("b.py"), "{ran:?}");
        repo.pleach(["uninstall"]);
    }
}

#[test]
fn outside_a_repository_install_refuses_and_writes_nothing() {
    let dir = TempDir::new().unwrap();
    for command in ["install", "uninstall", "doctor", "retry", "log"] {
        let ran = run(PLEACH, dir.path(), [command]);
        assert_eq!(ran.status, Some(2), "{ran:?}");
        assert!(ran.err.starts_with("pleach: not in a git repository") && ran.err.lines().count() == 1, "{ran:?}");
        assert_eq!(ran.out, "");
    }
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 0);
}

#[test]
fn a_bare_repository_is_installed_into_but_has_nothing_to_share() {
    let dir = TempDir::new().unwrap();
    run("git", dir.path(), ["init", "-q", "--bare", "bare.git"]);
    let bare = Repo { dir: dir.path().join("bare.git"), git: "git".to_owned() };
    let ran = bare.pleach(["install", "--shared"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("there is no worktree here whose .gitattributes could be written"), "{ran:?}");
    bare.install();
    assert!(bare.read("info/attributes").contains("*.py merge=pleach"));
    assert_eq!(bare.pleach(["doctor"]).status, Some(0));
    bare.pleach(["uninstall"]);
    assert!(!bare.dir.join("info/attributes").exists());
}

#[test]
fn a_shared_file_that_is_not_checked_out_is_not_written_anew() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.write(".gitattributes", "*.png binary\n").write("src/tides.py", TIDES).commit("Show the tide");
    repo.ok(["sparse-checkout", "set", "--no-cone", "/src/"]);
    assert!(!repo.dir.join(".gitattributes").exists());
    let before = without_objects(&repo);
    let ran = repo.pleach(["install", "--shared"]);
    assert_eq!((ran.status, &*ran.out), (Some(2), ""));
    assert!(ran.err.contains("/.gitattributes is tracked but not checked out; check it out first"), "{ran:?}");
    assert_eq!(without_objects(&repo), before);
}

/// Runs pleach with a home of its own.
fn at_home(home: &Path, dir: &Path, args: &[&str]) -> Ran {
    global(program(PLEACH, dir), home).args(args).output().unwrap().into()
}

fn global(mut command: Command, home: &Path) -> Command {
    command.env_remove("GIT_CONFIG_GLOBAL").env("HOME", home);
    command
}

#[test]
fn installed_globally_it_works_in_every_repository_and_goes_without_a_trace() {
    let dir = TempDir::new().unwrap();
    let included = dir.path().join("included");
    fs::write(&included, "[core]\n\tattributesFile = ~/included attributes\n").unwrap();
    let include = format!("[include]\n\tpath = {}\n", included.display());
    for (config, attributes_file) in [
        (Some(&*include), "included attributes"),
        (None, ".config/git/attributes"),
        (Some("[user]\n\tname = Harbour"), ".config/git/attributes"),
        (Some("[core]\n\tattributesFile = ~/my attributes\n"), "my attributes"),
    ] {
        let dir = TempDir::new().unwrap();
        let home = dir.path().join("home");
        fs::create_dir_all(home.join(".config/git")).unwrap();
        if let Some(config) = config {
            fs::write(home.join(".gitconfig"), config).unwrap();
        }
        let repo = forked_without_pleach(dir.path());
        let before = contents(&home);
        for _ in 0..2 {
            let ran = at_home(&home, dir.path(), &["install", "--global"]);
            assert_eq!(ran.status, Some(0), "{ran:?}");
        }
        assert!(home.join(attributes_file).exists());
        assert_eq!(at_home(&home, &repo.dir, &["doctor"]).status, Some(0));
        let merged = global(repo.command(["merge", "-q", "--no-edit", "upstream"]), &home).output().unwrap();
        assert!(merged.status.success(), "{merged:?}");
        assert_eq!(repo.read(FILE), both(TIDES));
        assert_eq!(at_home(&home, dir.path(), &["uninstall", "--global"]).status, Some(0));
        assert_eq!(contents(&home), before);
    }
}

#[test]
fn a_global_install_writes_where_git_reads_if_only_the_xdg_file_exists() {
    let dir = TempDir::new().unwrap();
    let home = dir.path().join("home");
    fs::create_dir_all(home.join(".config/git")).unwrap();
    fs::write(home.join(".config/git/config"), "[user]\n\tname = Harbour\n").unwrap();
    let ran = at_home(&home, dir.path(), &["install", "--global"]);
    assert!(ran.out.starts_with(&format!("{}\n", home.join(".config/git/config").display())), "{ran:?}");
    assert!(fs::read_to_string(home.join(".config/git/config")).unwrap().contains("[merge \"pleach\"]"));
    assert!(!home.join(".gitconfig").exists());
}

#[cfg(unix)]
#[test]
fn a_configuration_file_that_is_a_link_stays_one() {
    let dir = TempDir::new().unwrap();
    let home = dir.path().join("home");
    fs::create_dir_all(home.join("dotfiles")).unwrap();
    fs::write(home.join("dotfiles/gitconfig"), "[user]\n\tname = Harbour\n").unwrap();
    fs::create_dir_all(home.join(".config/git")).unwrap();
    fs::write(home.join("dotfiles/attributes"), "*.png binary\n").unwrap();
    std::os::unix::fs::symlink("dotfiles/gitconfig", home.join(".gitconfig")).unwrap();
    std::os::unix::fs::symlink("../../dotfiles/attributes", home.join(".config/git/attributes")).unwrap();
    let before = contents(&home);
    at_home(&home, dir.path(), &["install", "--global"]);
    assert!(fs::read_to_string(home.join("dotfiles/gitconfig")).unwrap().contains("pleach"));
    assert!(fs::read_to_string(home.join("dotfiles/attributes")).unwrap().contains("pleach"));
    at_home(&home, dir.path(), &["uninstall", "--global"]);
    assert_eq!(contents(&home), before);
}

#[cfg(unix)]
#[test]
fn a_program_in_a_directory_of_any_name_is_called() {
    for name in ["with space", "a driver of mine", "it's", "100% %A", "quo\"te", "do$lar;`x`"] {
        let dir = TempDir::new().unwrap();
        let programs = dir.path().join(name);
        fs::create_dir(&programs).unwrap();
        // By another process: see the tests of merge-file.
        assert_eq!(run("cp", &programs, [PLEACH, "pleach"]).status, Some(0));
        let program_file = programs.join("pleach");
        let repo = forked_without_pleach(dir.path());
        let installed = run(program_file.to_str().unwrap(), &repo.dir, ["install"]);
        assert_eq!(installed.status, Some(0), "{installed:?}");
        let merged = repo.run(["merge", "--no-edit", "upstream"]);
        assert_eq!(merged.status, Some(0), "{name}: {merged:?}");
        assert_eq!(repo.read(FILE), both(TIDES));
        let doctor = repo.pleach(["doctor"]);
        assert_eq!(doctor.status, Some(0), "{doctor:?}");
    }
}

#[cfg(unix)]
#[test]
fn the_program_is_named_by_its_place_in_the_path() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    let bin = dir.path().join("bin");
    fs::create_dir(&bin).unwrap();
    std::os::unix::fs::symlink(PLEACH, bin.join("pleach")).unwrap();
    let path = std::env::join_paths([&bin, Path::new("/usr/bin"), Path::new("/bin")]).unwrap();
    let ran: Ran = program(PLEACH, &repo.dir).arg("install").env("PATH", path).output().unwrap().into();
    assert_eq!(ran.status, Some(0), "{ran:?}");
    let driver = repo.ok(["config", "merge.pleach.driver"]);
    assert!(driver.starts_with(&format!("{} driver %O", bin.join("pleach").display())), "{driver}");
}

#[test]
fn somebody_elses_lock_on_the_configuration_is_respected() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.install();
    let config = repo.read(".git/config");
    repo.write(".git/config.lock", "");
    let ran = repo.pleach(["uninstall"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains(".git/config"), "{ran:?}");
    assert_eq!(repo.read(".git/config"), config);
    assert_eq!(repo.read(".git/config.lock"), "");
}

#[test]
fn what_could_not_be_written_is_not_shown() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.write(".git/config.lock", "");
    let ran = repo.pleach(["install"]);
    assert_eq!((ran.status, &*ran.out), (Some(2), ""));
    assert!(ran.err.contains("could not lock config file .git/config"), "{ran:?}");
    assert!(!repo.dir.join(".git/info/attributes").exists());
}

#[test]
fn uninstall_says_where_pleach_is_installed_still() {
    let dir = TempDir::new().unwrap();
    let home = dir.path().join("home");
    fs::create_dir(&home).unwrap();
    let repo = forked(dir.path());
    at_home(&home, &repo.dir, &["install", "--global"]);
    let ran = at_home(&home, &repo.dir, &["uninstall"]);
    let still =
        format!("merge.pleach.driver is still set in {}/.gitconfig; `pleach uninstall --global`", home.display());
    assert!(ran.out.contains(&still), "{ran:?}");
    at_home(&home, &repo.dir, &["install"]);
    let ran = at_home(&home, &repo.dir, &["uninstall", "--global"]);
    assert!(ran.out.contains("is still set in .git/config; `pleach uninstall` ends that"), "{ran:?}");
    let ran = at_home(&home, &repo.dir, &["uninstall"]);
    assert!(!ran.out.contains("still"), "{ran:?}");
}

#[test]
fn uninstall_leaves_the_record_of_what_was_merged_and_says_where_it_is() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    assert!(!repo.pleach(["uninstall"]).out.contains("log.jsonl"), "there is none yet");
    repo.install().ok(["merge", "-q", "--no-edit", "upstream"]);
    let log = repo.pleach(["log"]);
    let ran = repo.pleach(["uninstall"]);
    let said = format!("{} stays: the record of what was merged", repo.dir.join(".git/pleach/log.jsonl").display());
    assert!(ran.out.contains(&said), "{ran:?}");
    assert_eq!(repo.pleach(["log"]), log);
}

#[cfg(unix)]
#[test]
fn what_is_no_plain_file_is_left_alone_and_links_stay() {
    use std::os::unix::fs::{FileTypeExt, symlink};
    let dir = TempDir::new().unwrap();
    let home = dir.path();
    let pleach = |config: &Path, command: &str| -> Ran {
        let mut ran = program(PLEACH, home);
        ran.args([command, "--global"]).env("GIT_CONFIG_GLOBAL", config).output().unwrap().into()
    };
    // A device of our own: only root can make one.
    let elsewhere = TempDir::new().unwrap();
    let device = elsewhere.path().join("device");
    if Command::new("mknod").arg(&device).args(["c", "1", "3"]).output().is_ok_and(|made| made.status.success()) {
        let refused = format!("pleach: {} is not a plain file; nothing was written\n", device.display());
        let before = contents(home);
        let ran = pleach(&device, "install");
        assert_eq!((ran.status, &*ran.err), (Some(2), &*refused));
        assert!(fs::symlink_metadata(&device).unwrap().file_type().is_char_device());
        assert_eq!(contents(home), before, "nor was anything else written");
        assert_eq!(pleach(&device, "uninstall").status, Some(0));
    } else {
        eprintln!("skipped: only root can make a device");
    }

    // Links whose targets are not there yet.
    fs::create_dir_all(home.join(".config/git")).unwrap();
    fs::create_dir_all(home.join("dotfiles")).unwrap();
    let attributes = home.join(".config/git/attributes");
    let config = home.join("gitconfig");
    symlink("../../dotfiles/attributes", &attributes).unwrap();
    symlink("dotfiles/config", &config).unwrap();
    let before = contents(home);
    assert_eq!(pleach(&config, "install").status, Some(0));
    assert!(fs::read_to_string(home.join("dotfiles/attributes")).unwrap().contains("*.py merge=pleach"));
    assert!(fs::read_to_string(home.join("dotfiles/config")).unwrap().contains("driver = "));
    assert!(attributes.is_symlink() && config.is_symlink());
    assert_eq!(pleach(&config, "uninstall").status, Some(0));
    assert_eq!(contents(home), before);
}

#[test]
fn no_place_for_temporary_files_is_said_to_be_that() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let mut forecast = program(PLEACH, &repo.dir);
    let ran: Ran = forecast.args(["forecast", "upstream"]).env("TMPDIR", "/nowhere").output().unwrap().into();
    let said = "pleach: could not make a temporary directory in /nowhere: No such file or directory";
    assert!(ran.status == Some(2) && ran.err.starts_with(said), "{ran:?}");
}
