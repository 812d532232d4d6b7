;;; tilespec-mode.el --- job specs of tilespec -*- lexical-binding: t; -*-
;; Made by `python -m tilespec.editor.files`; change the language, not this file.

(defvar tilespec-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?- "_" table)
    (modify-syntax-entry ?' "_" table)
    table))

(defvar tilespec-font-lock-keywords
  (list
   (cons (concat "^" (regexp-opt '("adhesive" "backer" "basin" "bath" "boxing" "cleaner" "clips" "collar" "conditions" "datum" "delivery" "deviation" "floor" "grout" "heating" "impregnator" "job" "language" "leveller" "limit" "membrane" "mirror-adhesive" "primer" "record" "room" "sealant" "sealer" "shower" "step" "tape" "tile" "trim" "use" "wall") 'symbols)) 'font-lock-keyword-face)
   (cons (regexp-opt '("absorption" "adhesive" "after" "aids" "air" "along" "at" "author" "backer" "band" "barefoot" "base" "because" "before" "begin" "boards" "border" "bottom" "box" "build-up" "built" "by" "caliber" "carries" "channel" "chips" "class" "cleaner" "client" "clips" "closed" "coats" "collar" "colour" "consumption" "covers" "crew" "cutting" "date" "dcof" "deflection" "density" "depth" "diagonals" "diameter" "door" "drain" "fall" "fell" "film" "finished" "firm" "fitting" "fixture" "flange" "flow" "for" "full" "grout" "hall" "head" "heating" "height" "heights" "hours" "humidity" "impregnator" "in" "joint" "joints" "joists" "keeps" "laid" "lasted" "leveller" "matures" "measured" "membrane" "mirror" "mirror-adhesive" "modular" "movement" "niche" "notch" "note" "notice" "on" "open" "opening" "out" "outlet" "output" "over" "overrun" "pack" "packed" "panel" "paper" "pendulum" "perimeter" "pipe" "pot" "practice" "primer" "rcd" "reading" "ref" "resistance" "result" "reveal" "revision" "rim" "rooms" "run" "samples" "sealant" "sealer" "sensor" "shade" "site" "sizes" "slip" "socket" "span" "splash" "start" "structural" "surface" "takes" "tape" "temperature" "thick" "thickness" "threshold" "tile" "tiled" "trim" "untiled" "valve" "voltage" "wait" "walk" "warp" "water" "weight" "width" "window" "work") 'symbols) 'font-lock-builtin-face)
   (cons (regexp-opt '("AU" "DE" "EN" "UK" "US" "acetoxy" "acid" "across" "acrylic" "alkaline" "alkoxy" "aluminium" "and" "anhydrite" "asbestos" "back" "basket" "bed" "beige" "black" "bleach" "blockwork" "blue" "board" "boarding" "bond" "both" "brick" "brickwork" "brown" "cable" "calcium" "calcium-sulfate" "ceiling" "cement" "cement-board" "center" "centre" "ceramic" "chipboard" "clear" "common" "concrete" "contact" "course" "dark" "deck" "diagonal" "dispersion" "double" "drywall" "earthenware" "empty" "engineered" "epoxy" "existing" "falls" "fast" "fiber-cement" "fiberboard" "fibre-cement" "fibreboard" "final" "finished-plane" "first" "first-coat" "first-use" "fittings" "fix" "fixing" "flexible" "floorboards" "foam" "forth" "four" "freestanding" "fri" "generic" "glass" "glazed" "glued" "granite" "gray" "green" "grey" "grid" "grouting" "gypsum" "half" "hand" "handover" "heated" "heating-after" "heating-before" "heating-cover" "heating-cycle" "heating-start" "herringbone" "hybrid" "impregnating" "inspection" "insulation-after" "insulation-before" "insulation-cover" "isolating" "isolation" "landscape" "lead" "leak" "leak-test" "left" "level" "levelling" "light" "lime" "limestone" "lippage" "liquid" "marble" "masonry" "mat" "matt" "membrane-thickness" "moisture-resistant" "mon" "mortar" "mosaic" "natural" "neutral" "new" "occupied" "offset" "old" "one" "oxime" "paint" "painted" "pedestal" "pipes" "plane" "planes" "plaster" "plasterboard" "plastic" "plywood" "polished" "polyurethane" "ponding" "porcelain" "pressed" "pressure" "pressure-test" "priming" "protection" "quarry" "quarter" "rectified" "red" "render" "resin" "resin-training" "right" "round" "sand" "sandstone" "sat" "screed" "screen" "screened" "screwed" "sealing" "second" "second-coat" "services" "set" "setting" "sheet" "skim" "skimmed" "slab" "slate" "solvent" "stack" "stacked" "steel" "stepped" "stone" "stoneware" "straight" "string" "strip" "stripping" "substrate" "substrate-flatness" "substrate-moisture" "substrate-strength" "sulfate" "sulphate" "sun" "sunlit" "survey" "tanking" "terracotta" "terrazzo" "test" "textured" "third" "thu" "tile-backer" "tiles" "tiling" "timber" "top" "translucent" "travertine" "tray" "tue" "two" "unglazed" "unskimmed" "upright" "vanity" "vertical" "walk-in" "walking" "wall-hung" "walls" "waterproofing" "ways" "weave" "wed" "white" "yellow") 'symbols) 'font-lock-type-face)
   (cons "[+-]?\\b[0-9]+\\(?:\\.[0-9]+\\)?\\(?:/[0-9]+\\)?" 'font-lock-constant-face)))

;;;###autoload
(define-derived-mode tilespec-mode prog-mode "tilespec"
  "Job specs of tilespec."
  (setq-local comment-start "# " comment-start-skip "#+[ \t]*" indent-tabs-mode nil tab-width 2
              font-lock-defaults '(tilespec-font-lock-keywords)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.tilespec\\'" . tilespec-mode))

(defcustom tilespec-command '("tilespec" "editor")
  "What is started to speak with; put \"--library\" \"FOLDER\" behind it for the firm's stock."
  :type '(repeat string) :group 'languages)

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs (cons 'tilespec-mode (lambda (&rest _) tilespec-command))))

(provide 'tilespec-mode)
;;; tilespec-mode.el ends here
