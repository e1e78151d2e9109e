-- What an editor with the protocol built in does with the server: arguments are the server's command, a file with
-- the text, and one for the answers, as JSON.
local python, text, answers = unpack(vim.fn.json_decode(vim.env.GESTURESMITH_EDITOR_TEST))
local said = {}
local function done()
  vim.fn.writefile({ vim.fn.json_encode(said) }, answers)
end
vim.cmd("edit " .. vim.fn.fnameescape(text))
local buffer = vim.api.nvim_get_current_buf()
-- Older editors have the first of these calls, newer ones the second.
local client = (vim.lsp.start_client or vim.lsp.start)({
  name = "gesturesmith",
  cmd = { python, "-m", "gesturesmith.cli.main", "language-server", "--stdio" },
  root_dir = vim.fn.fnamemodify(text, ":h"),
})
vim.lsp.buf_attach_client(buffer, client)
local function wait(happens)
  return vim.wait(tonumber(vim.env.GESTURESMITH_EDITOR_WAITS), happens, 20)
end
local function codes()
  local found = {}
  for _, one in ipairs(vim.diagnostic.get(buffer)) do
    found[#found + 1] = { code = one.code, line = one.lnum, column = one.col, last = one.end_col }
  end
  return found
end
said.told = wait(function() return #codes() > 0 end)
said.first = codes()
local function ask(method, parameters)
  local found
  vim.lsp.buf_request(buffer, method, parameters, function(_, result) found = { result } end)
  wait(function() return found ~= nil end)
  return found and found[1]
end
local document = { uri = vim.uri_from_bufnr(buffer) }
-- The first way out is put in by the editor itself.
local at = vim.diagnostic.get(buffer)[1]
local range =
  { start = { line = at.lnum, character = at.col }, ["end"] = { line = at.end_lnum, character = at.end_col } }
local actions = ask("textDocument/codeAction",
  { textDocument = document, range = range, context = { diagnostics = {} } }) or {}
said.actions = vim.tbl_map(function(one) return one.title end, actions)
if actions[1] then
  vim.lsp.util.apply_workspace_edit(actions[1].edit, "utf-16")
end
said.cleared = wait(function() return #codes() == 0 end)
said.after = vim.api.nvim_buf_get_lines(buffer, 0, -1, false)
-- A name is replaced, behind a sign of two UTF-16 units too.
local edit = ask("textDocument/rename",
  { textDocument = document, position = { line = 3, character = 9 }, newName = "cave" })
vim.lsp.util.apply_workspace_edit(edit, "utf-16")
said.renamed = vim.api.nvim_buf_get_lines(buffer, 0, -1, false)
-- Typed and completed, in steps of the protocol.
vim.api.nvim_buf_set_lines(buffer, 4, 5, false, { "  technique: Flatterz" })
local items = ask("textDocument/completion", { textDocument = document, position = { line = 4, character = 21 } })
vim.lsp.util.apply_text_edits({ items.items[1].textEdit }, buffer, "utf-16")
said.completed = vim.api.nvim_buf_get_lines(buffer, 4, 5, false)[1]
local hover = ask("textDocument/hover", { textDocument = document, position = { line = 4, character = 16 } })
said.help = hover and hover.contents.value
done()
