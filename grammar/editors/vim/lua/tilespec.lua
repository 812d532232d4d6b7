-- Neovim: speaks with `tilespec editor` while a spec is written. From 0.7 on.
--
--   require("tilespec").setup({ command = { "tilespec", "editor" } })
--
-- command  what is started; put "--library", "FOLDER" behind it for the firm's stock
-- keys     false: none are set

local M = {}
local started = {} -- by folder, where Neovim does not see to that itself

local function say(text)
  vim.notify("tilespec: " .. text, vim.log.levels.WARN)
end

local function start(how, buffer)
  if vim.lsp.start then
    return vim.lsp.start(how, { bufnr = buffer })
  end
  local id = started[how.root_dir]
  if not (id and vim.lsp.get_client_by_id(id)) then
    id = vim.lsp.start_client(how)
    started[how.root_dir] = id
  end
  if id then
    vim.lsp.buf_attach_client(buffer, id)
  end
  return id
end

local function keys(buffer)
  local function map(key, what)
    vim.keymap.set("n", key, what, { buffer = buffer })
  end
  map("K", vim.lsp.buf.hover) -- what is this?
  map("gd", vim.lsp.buf.definition) -- where is it declared?
  map("gr", vim.lsp.buf.references) -- where is it used?
  map("<Leader>r", vim.lsp.buf.rename)
  map("<Leader>a", vim.lsp.buf.code_action) -- mend this
  map("<Leader>m", vim.diagnostic.open_float) -- what is said of this line, whole
  map("]d", function() -- the next message, the one before
    M.go(1)
  end)
  map("[d", function()
    M.go(-1)
  end)
end

function M.go(count)
  if vim.diagnostic.jump then
    return vim.diagnostic.jump({ count = count, float = true })
  end
  return (count > 0 and vim.diagnostic.goto_next or vim.diagnostic.goto_prev)()
end

local function open(options, buffer)
  local command = options.command
  if vim.fn.executable(command[1]) == 0 then
    return say("there is no program `" .. command[1] .. "`. `tilespec editor --set-up neovim` says the line for your init.lua.")
  end
  local folder = vim.fn.fnamemodify(vim.api.nvim_buf_get_name(buffer), ":p:h")
  local id = start({
    name = "tilespec",
    cmd = command,
    root_dir = folder,
    on_init = function(client)
      -- While a line is typed too, not only when insert mode is left.
      vim.diagnostic.config({ update_in_insert = true }, vim.lsp.diagnostic.get_namespace(client.id))
    end,
    on_exit = function(code)
      started[folder] = nil
      if code ~= 0 and code ~= 143 then
        vim.schedule(function()
          say("`" .. table.concat(command, " ") .. "` ended with " .. code .. ". Run it in a terminal: it says why.")
        end)
      end
    end,
  }, buffer)
  if not id then
    return
  end
  vim.bo[buffer].omnifunc = "v:lua.vim.lsp.omnifunc" -- Ctrl-X Ctrl-O completes
  if options.keys ~= false then
    keys(buffer)
  end
  if vim.lsp.inlay_hint then
    vim.lsp.inlay_hint.enable(true, { bufnr = buffer }) -- tiles and boxes beside each surface
  end
end

function M.setup(options)
  options = vim.tbl_extend("keep", options or {}, { command = { "tilespec", "editor" } })
  if not vim.g.tilespec_program then
    local program = {} -- what stands before `editor`: `gq` and `:make` start it too
    for _, word in ipairs(options.command) do
      if word == "editor" then
        break
      end
      table.insert(program, vim.fn.shellescape(word))
    end
    vim.g.tilespec_program = table.concat(program, " ")
  end
  if vim.o.completeopt == "menu,preview" then
    vim.o.completeopt = "menuone,noinsert" -- as Neovim comes, it puts in the first word unasked
  end
  vim.cmd("runtime ftdetect/tilespec.vim")
  vim.api.nvim_create_autocmd("FileType", {
    pattern = "tilespec",
    group = vim.api.nvim_create_augroup("tilespec", { clear = true }),
    callback = function(event)
      open(options, event.buf)
    end,
  })
end

return M
