-- What every session in Neovim needs: waiting for something to be shown, and handing over what was seen.

local common = {}

function common.wait(what, condition)
  if not vim.wait(10000, condition, 10) then
    error("nothing came of it: " .. what)
  end
end

-- The text of the window that floats above the others.
function common.floating()
  for _, window in ipairs(vim.api.nvim_list_wins()) do
    if vim.api.nvim_win_get_config(window).relative ~= "" then
      return table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(window), 0, -1, false), "\n")
    end
  end
end

-- Hold a session, write what it has seen, or its trouble, to a file as JSON, and leave.
function common.hold(session)
  local seen = {}
  local good, trouble = pcall(session, seen)
  seen.trouble = not good and trouble or nil
  local file = assert(io.open(vim.env.SEEN, "w"))
  file:write(vim.json.encode(seen))
  file:close()
  vim.cmd("qall!")
end

return common
