" Made by `python -m tilespec.editor.files`; change the language, not this file.
if exists("b:current_syntax")
  finish
endif
syntax case match
syntax match tilespecWord /[[:alpha:]\u00aa-\u02af\u0370-\u1fff][[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]*/
syntax match tilespecDescribing /\%(AU\|DE\|EN\|UK\|US\|acetoxy\|acid\|across\|acrylic\|alkaline\|alkoxy\|aluminium\|and\|anhydrite\|asbestos\|back\|basket\|bed\|beige\|black\|bleach\|blockwork\|blue\|board\|boarding\|bond\|both\|brick\|brickwork\|brown\|cable\|calcium\|calcium-sulfate\|ceiling\|cement\|cement-board\|center\|centre\|ceramic\|chipboard\|clear\|common\|concrete\|contact\|course\|dark\|deck\|diagonal\|dispersion\|double\|drywall\|earthenware\|empty\|engineered\|epoxy\|existing\|falls\|fast\|fiber-cement\|fiberboard\|fibre-cement\|fibreboard\|final\|finished-plane\|first\|first-coat\|first-use\|fittings\|fix\|fixing\|flexible\|floorboards\|foam\|forth\|four\|freestanding\|fri\|generic\|glass\|glazed\|glued\|granite\|gray\|green\|grey\|grid\|grouting\|gypsum\|half\|hand\|handover\|heated\|heating-after\|heating-before\|heating-cover\|heating-cycle\|heating-start\|herringbone\|hybrid\|impregnating\|inspection\|insulation-after\|insulation-before\|insulation-cover\|isolating\|isolation\|landscape\|lead\|leak\|leak-test\|left\|level\|levelling\|light\|lime\|limestone\|lippage\|liquid\|marble\|masonry\|mat\|matt\|membrane-thickness\|moisture-resistant\|mon\|mortar\|mosaic\|natural\|neutral\|new\|occupied\|offset\|old\|one\|oxime\|paint\|painted\|pedestal\|pipes\|plane\|planes\|plaster\|plasterboard\|plastic\|plywood\|polished\|polyurethane\|ponding\|porcelain\|pressed\|pressure\|pressure-test\|priming\|protection\|quarry\|quarter\|rectified\|red\|render\|resin\|resin-training\|right\|round\|sand\|sandstone\|sat\|screed\|screen\|screened\|screwed\|sealing\|second\|second-coat\|services\|set\|setting\|sheet\|skim\|skimmed\|slab\|slate\|solvent\|stack\|stacked\|steel\|stepped\|stone\|stoneware\|straight\|string\|strip\|stripping\|substrate\|substrate-flatness\|substrate-moisture\|substrate-strength\|sulfate\|sulphate\|sun\|sunlit\|survey\|tanking\|terracotta\|terrazzo\|test\|textured\|third\|thu\|tile-backer\|tiles\|tiling\|timber\|top\|translucent\|travertine\|tray\|tue\|two\|unglazed\|unskimmed\|upright\|vanity\|vertical\|walk-in\|walking\|wall-hung\|walls\|waterproofing\|ways\|weave\|wed\|white\|yellow\)\%([[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]\)\@!/
syntax match tilespecJoining /\%(above\|area\|basin\|bath\|below\|between\|boxing\|conditions\|corner\|datum\|deep\|delivery\|deviation\|floor\|follow\|from\|high\|job\|language\|life\|limit\|long\|of\|per\|plumb\|record\|room\|shower\|size\|step\|time\|to\|up\|use\|wall\|wide\|with\|zone\)\%([[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]\)\@!/
syntax match tilespecAttribute /\%(absorption\|adhesive\|after\|aids\|air\|along\|at\|author\|backer\|band\|barefoot\|base\|because\|before\|begin\|boards\|border\|bottom\|box\|build-up\|built\|by\|caliber\|carries\|channel\|chips\|class\|cleaner\|client\|clips\|closed\|coats\|collar\|colour\|consumption\|covers\|crew\|cutting\|date\|dcof\|deflection\|density\|depth\|diagonals\|diameter\|door\|drain\|fall\|fell\|film\|finished\|firm\|fitting\|fixture\|flange\|flow\|for\|full\|grout\|hall\|head\|heating\|height\|heights\|hours\|humidity\|impregnator\|in\|joint\|joints\|joists\|keeps\|laid\|lasted\|leveller\|matures\|measured\|membrane\|mirror\|mirror-adhesive\|modular\|movement\|niche\|notch\|note\|notice\|on\|open\|opening\|out\|outlet\|output\|over\|overrun\|pack\|packed\|panel\|paper\|pendulum\|perimeter\|pipe\|pot\|practice\|primer\|rcd\|reading\|ref\|resistance\|result\|reveal\|revision\|rim\|rooms\|run\|samples\|sealant\|sealer\|sensor\|shade\|site\|sizes\|slip\|socket\|span\|splash\|start\|structural\|surface\|takes\|tape\|temperature\|thick\|thickness\|threshold\|tile\|tiled\|trim\|untiled\|valve\|voltage\|wait\|walk\|warp\|water\|weight\|width\|window\|work\)\%([[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]\)\@!/
syntax match tilespecTimes /[xX×]\%([ \t]*[0-9½¼¾⅛⅜⅝⅞]\)\@=/
syntax match tilespecMark /[;,]/
syntax match tilespecUnit /[ \u00a0-]\?\%(millimeters\|millimetres\|millimeter\|millimetre\|kg\/m2\/mm\|kg\/m²\/mm\|gal\/min\|minutes\|inches\|lb\/ft2\|lb\/ft3\|lb\/ft²\|liters\|litres\|meters\|metres\|minute\|pounds\|1\/min\|L\/min\|N\/mm2\|N\/mm²\|W\/ft2\|W\/ft²\|fl oz\|hours\|kg\/m2\|kg\/m3\|kg\/m²\|l\/min\|liter\|litre\|meter\|metre\|mg\/m3\|qt\/lb\|sq ft\|ug\/m3\|weeks\|% RH\|CM-%\|L\/kg\|Mohm\|W\/m2\|W\/m²\|d\/mm\|days\|feet\|foot\|g\/m2\|g\/m²\|hour\|inch\|kg\/L\|kg\/l\|kg\/m\|l\/kg\|m\/s2\|m2\/h\|mins\|sqft\|week\|%RH\|1\/K\|1\/h\|CM%\|L\/s\|RH%\|bar\|cm2\|cm²\|day\|deg\|ft2\|ft²\|gal\|gpm\|hrs\|in2\|in²\|l\/s\|lbs\|m\/h\|min\|mm2\|mm²\|ohm\|psf\|MΩ\|cm\|dB\|ft\|hr\|in\|kW\|kg\|km\|lb\|m2\|m3\|mA\|mL\|ml\|mm\|m²\|qt\|wk\|yd\|°C\|°F\|"\|%\|'\|A\|C\|F\|K\|L\|V\|W\|d\|g\|h\|l\|m\|s\|°\|Ω\|′\|″\|㎡\)\%([A-WYZa-wyz0-9²\/%]\|[xX]\%([ \t]*\d\)\@!\)\@!\%([ \t]\+corner\)\@!/ contained
syntax match tilespecUnit / \?\%(ft\|[′']\)\%([ -]\?[0-9½¼¾⅛⅜⅝⅞]\)\@=/ contained
syntax match tilespecNumber /[+-]\?\%(\d\+\%(\.\d\+\)\?\%( \?\/ \?\d\+\)\?[½¼¾⅛⅜⅝⅞]\?\|[½¼¾⅛⅜⅝⅞]\)/ nextgroup=tilespecUnit
syntax match tilespecNumber /1 \?: \?\d\+\%(\.\d\+\)\?\%([0-9:]\)\@!/
syntax match tilespecWord /\%(25\|20\|12\.5\|7\.5\)\%(LM\|HM\|E\|P\)\%([[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]\)\@!/
syntax match tilespecDate /[0-9]\{1,2}:[0-9]\{2}[ \t]*[-–][ \t]*[0-9]\{1,2}:[0-9]\{2}/
syntax match tilespecDate /[0-9]\{4}-[0-9]\{2}-[0-9]\{2}\%([0-9]\)\@!/
syntax match tilespecName /\%(on[ \t]\)\@![[:alpha:]\u00aa-\u02af\u0370-\u1fff][[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]*/ contained
syntax match tilespecStatement /\%(; \)\@<=\%(job\|language\|conditions\|use\|limit\|room\|datum\|floor\|wall\|basin\|boxing\|step\|deviation\|record\|delivery\)\%([[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]\)\@!/
syntax match tilespecStatement /^\%(adhesive\|backer\|basin\|bath\|boxing\|cleaner\|clips\|collar\|conditions\|datum\|delivery\|deviation\|floor\|grout\|heating\|impregnator\|job\|language\|leveller\|limit\|membrane\|mirror-adhesive\|primer\|record\|room\|sealant\|sealer\|shower\|step\|tape\|tile\|trim\|use\|wall\)\%([[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]\)\@!/
syntax match tilespecStatement /^\%(adhesive\|backer\|cleaner\|clips\|collar\|delivery\|deviation\|grout\|heating\|impregnator\|leveller\|limit\|membrane\|mirror-adhesive\|primer\|record\|room\|sealant\|sealer\|tape\|tile\|trim\|wall\)\%([[:alnum:]_'.\/+\u00aa-\u02af\u0370-\u1fff-]\)\@!/ nextgroup=tilespecName skipwhite
syntax match tilespecText /\d\@1<!"[^"]*"/
syntax match tilespecComment /#.*/
highlight default link tilespecComment Comment
highlight default link tilespecText String
highlight default link tilespecDate Constant
highlight default link tilespecNumber Number
highlight default link tilespecUnit Type
highlight default link tilespecTimes Operator
highlight default link tilespecMark Delimiter
highlight default link tilespecStatement Statement
highlight default link tilespecName Identifier
highlight default link tilespecAttribute Keyword
highlight default link tilespecJoining Operator
highlight default link tilespecDescribing Constant
let b:current_syntax = "tilespec"
