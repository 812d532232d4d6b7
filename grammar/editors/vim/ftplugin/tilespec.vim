" Made by `python -m tilespec.editor.files`; change the language, not this file.
if exists("b:did_ftplugin")
  finish
endif
let b:did_ftplugin = 1
setlocal commentstring=#\ %s comments=:# expandtab shiftwidth=2 softtabstop=2
let s:program = get(g:, 'tilespec_program', 'tilespec')
let &l:formatprg = s:program . ' tidy - ' . (has('win32') ? '2>NUL' : '2>/dev/null')
let &l:makeprg = s:program . ' check --short %:S'
setlocal errorformat=%f:%l:%c:\ %t%*[a-z]%m
let b:undo_ftplugin = "setlocal commentstring< comments< expandtab< shiftwidth< softtabstop<"
  \ . " formatprg< makeprg< errorformat<"
