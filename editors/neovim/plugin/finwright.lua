-- Starts the finwright language server for *.finw files and finwright.toml, in Neovim 0.9 and later.

vim.filetype.add({ extension = { finw = "finwright" } })

-- A project is what lies in one repository; a design outside of any has its own folder.
local function root_of(file)
  local folder = vim.fs.dirname(file)
  local found = vim.fs.find(".git", { path = folder, upward = true })[1]
  return found and vim.fs.dirname(found) or folder
end

local function start(event)
  vim.lsp.start({
    name = "finwright",
    cmd = vim.g.finwright_command or { "finwright", "lsp" },
    root_dir = root_of(vim.fs.normalize(vim.api.nvim_buf_get_name(event.buf))),
  }, { bufnr = event.buf })
end

local function start_design(event)
  vim.bo[event.buf].commentstring = "# %s"
  -- Colours by tree-sitter where its parser is installed; where it isn't, those for Vim stay.
  pcall(vim.treesitter.start, event.buf, "finwright")
  start(event)
end

-- The settings beside the designs; any other TOML is none of ours.
local function start_settings(event)
  if vim.fs.basename(vim.api.nvim_buf_get_name(event.buf)) == "finwright.toml" then
    start(event)
  end
end

-- The line above each flight follows the text when one pauses.
local function keep_lines_fresh(event)
  local client = vim.lsp.get_client_by_id(event.data.client_id)
  if not client or client.name ~= "finwright" then
    return
  end
  vim.api.nvim_create_autocmd({ "BufEnter", "CursorHold", "InsertLeave", "TextChanged" }, {
    buffer = event.buf,
    group = vim.api.nvim_create_augroup("finwright_lines_" .. event.buf, { clear = true }),
    callback = function()
      vim.lsp.codelens.refresh({ bufnr = event.buf })
    end,
  })
end

vim.api.nvim_create_autocmd("LspAttach", {
  group = vim.api.nvim_create_augroup("finwright_attach", { clear = true }),
  callback = keep_lines_fresh,
})

vim.api.nvim_create_autocmd("FileType", {
  pattern = "finwright",
  group = vim.api.nvim_create_augroup("finwright", { clear = true }),
  callback = start_design,
})

vim.api.nvim_create_autocmd("FileType", {
  pattern = "toml",
  group = vim.api.nvim_create_augroup("finwright_settings", { clear = true }),
  callback = start_settings,
})
