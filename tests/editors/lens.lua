-- The line above each flight, and the pads side by side in its hover, as a reader at the field would ask for them.

local common = dofile(vim.fs.dirname(debug.getinfo(1, "S").source:sub(2)) .. "/common.lua")
local wait, floating = common.wait, common.floating

local function session(seen)
  vim.cmd.edit(vim.env.DESIGN)
  wait("the server", function()
    local clients = vim.lsp.get_clients({ bufnr = 0 })
    return #clients > 0 and clients[1].initialized
  end)
  -- As when one stops typing: our own configuration asks for them then.
  vim.api.nvim_exec_autocmds("InsertLeave", { buffer = 0 })
  wait("the lenses", function()
    local lenses = vim.lsp.codelens.get(0)
    return #lenses > 0 and vim.iter(lenses):all(function(lens)
      return lens.command ~= nil
    end)
  end)
  seen.lenses = vim.tbl_map(function(lens)
    return { line = lens.range.start.line, title = lens.command.title }
  end, vim.lsp.codelens.get(0))

  assert(vim.fn.search("^flight \\zsrod_day", "w") > 0)
  vim.lsp.buf.hover()
  wait("the hover", floating)
  seen.hover = floating()
end

common.hold(session)
