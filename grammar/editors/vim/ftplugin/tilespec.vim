" Made by `python -m tilespec.editor.files`; change the language, not this file.
if exists("b:did_ftplugin")
  finish
endif
let b:did_ftplugin = 1
setlocal commentstring=#\ %s comments=:# expandtab shiftwidth=2 softtabstop=2
setlocal formatprg=tilespec\ tidy\ -
setlocal makeprg=tilespec\ check\ --short\ %:S
setlocal errorformat=%f:%l:%c:\ %t%*[a-z]%m
let b:undo_ftplugin = "setlocal commentstring< comments< expandtab< shiftwidth< softtabstop<"
  \ . " formatprg< makeprg< errorformat<"
