//! Starts the finwright language server in Zed: the one on the `PATH`.

use zed_extension_api as zed;

struct Finwright;

impl zed::Extension for Finwright {
    fn new() -> Self {
        Finwright
    }

    fn language_server_command(
        &mut self,
        _: &zed::LanguageServerId,
        worktree: &zed::Worktree,
    ) -> zed::Result<zed::Command> {
        let command = worktree.which("finwright").ok_or("finwright isn't on the PATH")?;
        Ok(zed::Command { command, args: vec!["lsp".into()], env: Vec::new() })
    }
}

zed::register_extension!(Finwright);
