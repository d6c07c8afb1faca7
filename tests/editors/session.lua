-- A session in a real editor, as a person would hold it: open, look, read, mend. What was seen goes to a file as JSON.

local common = dofile(vim.fs.dirname(debug.getinfo(1, "S").source:sub(2)) .. "/common.lua")
local wait, floating = common.wait, common.floating
local function unknown_names()
  return vim.tbl_filter(function(found)
    return found.code == "name/unknown-name"
  end, vim.diagnostic.get(0))
end

local function session(seen)
  vim.cmd.edit(vim.env.DESIGN)
  seen.filetype = vim.bo.filetype
  seen.commentstring = vim.bo.commentstring

  wait("the finding", function()
    return #unknown_names() > 0
  end)
  seen.found = unknown_names()

  local front = vim.fn.search("lug \\zsfront", "w")
  assert(front > 0)
  vim.lsp.buf.hover()
  wait("the hover", floating)
  seen.hover = floating()

  vim.api.nvim_win_set_cursor(0, { seen.found[1].lnum + 1, seen.found[1].col })
  vim.lsp.buf.code_action({
    apply = true,
    filter = function(action)
      return action.title:find("caliber") ~= nil
    end,
  })
  wait("the fix", function()
    return vim.fn.search("calber", "nw") == 0
  end)
  wait("the end of the finding", function()
    return #unknown_names() == 0
  end)
  seen.text = table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), "\n") .. "\n"

  -- An edit by hand brings the finding back.
  vim.api.nvim_buf_set_lines(0, 0, 0, false, { "# 😀" })
  vim.cmd("%s/outer: caliber$/outer: calber/")
  wait("the finding after an edit", function()
    return #unknown_names() > 0
  end)
  seen.again = unknown_names()
end

common.hold(session)
