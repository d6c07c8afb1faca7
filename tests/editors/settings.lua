-- Settings in a real editor: their slip is told, their names are offered; and a design is indented and completed while
-- somebody types. What was seen goes to a file as JSON.

local common = dofile(vim.fs.dirname(debug.getinfo(1, "S").source:sub(2)) .. "/common.lua")
local wait = common.wait

local function type_keys(keys)
  vim.api.nvim_feedkeys(vim.api.nvim_replace_termcodes(keys, true, false, true), "tx", false)
end

-- What is offered at the cursor, by its labels.
local function offered(buffer)
  local client = vim.lsp.get_clients({ bufnr = buffer })[1]
  local params = vim.lsp.util.make_position_params(0, client.offset_encoding)
  local answer = client:request_sync("textDocument/completion", params, 5000, buffer)
  return vim.tbl_map(function(item)
    return item.label
  end, answer.result or {})
end

local function session(seen)
  vim.cmd("filetype plugin indent on")
  vim.cmd.edit(vim.env.SETTINGS)
  wait("the finding", function()
    return #vim.diagnostic.get(0) > 0
  end)
  seen.found = vim.diagnostic.get(0)[1].code
  vim.api.nvim_buf_set_lines(0, 0, -1, false, { "profile = " })
  vim.api.nvim_win_set_cursor(0, { 1, 10 })
  seen.profiles = offered(vim.api.nvim_get_current_buf())
  vim.cmd("bwipeout!")

  vim.cmd.edit(vim.env.DESIGN)
  local before = vim.api.nvim_buf_get_lines(0, 0, -1, false)
  type_keys("gg=G")
  seen.indented = vim.deep_equal(before, vim.api.nvim_buf_get_lines(0, 0, -1, false))
  type_keys("Go<CR>site hill {<CR>elevation: 4 m<CR>")
  local last = vim.api.nvim_buf_line_count(0)
  seen.typed = vim.api.nvim_buf_get_lines(0, last - 3, last, false)
  vim.api.nvim_win_set_cursor(0, { last, 0 })
  seen.open = offered(vim.api.nvim_get_current_buf())
end

common.hold(session)
