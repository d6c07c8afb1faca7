-- `:FinwrightPreview` opens the live page of the design in the browser; the cursor marks its part there.

local function clients(buffer)
  local get = vim.lsp.get_clients or vim.lsp.get_active_clients
  return get({ bufnr = buffer, name = "finwright" })
end

local function browse(url)
  if vim.ui.open then
    vim.ui.open(url)
  else
    vim.fn.jobstart({ vim.fn.has("mac") == 1 and "open" or "xdg-open", url }, { detach = true })
  end
end

local function follow(client, buffer)
  vim.api.nvim_create_autocmd({ "CursorMoved", "CursorMovedI" }, {
    buffer = buffer,
    group = vim.api.nvim_create_augroup("finwright_preview_" .. buffer, { clear = true }),
    callback = function()
      local at = vim.lsp.util.make_position_params(0, client.offset_encoding)
      client.notify("finwright/cursor", { textDocument = at.textDocument, position = at.position })
    end,
  })
end

vim.api.nvim_create_user_command("FinwrightPreview", function()
  local buffer = vim.api.nvim_get_current_buf()
  local client = clients(buffer)[1]
  if not client then
    vim.notify("finwright doesn't serve this file", vim.log.levels.WARN)
    return
  end
  local asked = { command = "finwright.preview", arguments = { vim.uri_from_bufnr(buffer) } }
  client.request("workspace/executeCommand", asked, function(problem, url)
    if problem or not url then
      vim.notify("there is no page for this file", vim.log.levels.WARN)
      return
    end
    follow(client, buffer)
    browse(url)
  end, buffer)
end, { desc = "Open the live page of this design" })
