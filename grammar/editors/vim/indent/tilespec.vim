" Made by `python -m tilespec.editor.files`; change the language, not this file.
if exists("b:did_indent")
  finish
endif
let b:did_indent = 1
setlocal autoindent indentexpr=TilespecIndent() indentkeys=0=job\ ,0=language\ ,0=conditions\ ,0=use\ ,0=limit\ ,0=room\ ,0=datum\ ,0=floor\ ,0=wall\ ,0=basin\ ,0=boxing\ ,0=step\ ,0=deviation\ ,0=record\ ,0=delivery\ ,o,O,!^F
let b:undo_indent = "setlocal autoindent< indentexpr< indentkeys<"
if exists("*TilespecIndent")
  finish
endif
function TilespecIndent()
  let above = getline(v:lnum - 1)
  if getline(v:lnum) =~# '^\s*\%(job\|language\|conditions\|use\|limit\|room\|datum\|floor\|wall\|basin\|boxing\|step\|deviation\|record\|delivery\)\s' || above =~# '^\s*$'
    return 0
  elseif above =~# '^\s'
    return indent(v:lnum - 1)
  endif
  return above =~# '^\%(job\|floor\|wall\|boxing\)\>' ? shiftwidth() : 0
endfunction
