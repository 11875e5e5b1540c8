// Opens a notebook of the workbook with its cards live and its code out of sight.
//
// JupyterLab loads this file as it stands. The container at its end is what module
// federation asks of an extension, written by hand, so that nothing has to be built.
//
// Code that runs when a notebook is merely opened is a danger, so:
// 1. Only a notebook that asks for it by the flag below is looked at.
// 2. Only a cell whose whole source is one of the workbook's own calls, letter by
//    letter, is run. A foreign notebook can set the flag, and gains nothing by it.
// 3. Nothing is run where the notebook's folder holds a file or a folder that Python
//    could import: a `workbook.py` beside the notebook would be taken for the workbook.
// A sentence in the notebook says what to press where nothing runs by itself.

(() => {
  const NAME = "lab-workbook";
  const FLAG = "lab_workbook";
  const OWN = "wb-own-cell";

  // As written by workbook/issuing/notebook.py.
  const WHOLE = new Set([
    'from workbook import open_sheet\n\npage = open_sheet("prelab")\npage',
    'from workbook import open_sheet\n\npage = open_sheet("postlab")\npage',
    "page.hand_in()",
    "page.report()",
    "page.report()",
  ]);
  const CARD = /^page\.card\("[A-Za-z][A-Za-z0-9_]*(\.[A-Za-z][A-Za-z0-9_]*)?"\)$/;

  const IMPORTABLE = /\.(py|pyw|pyc|pyd|so)$/i;

  // The place that stands for folded code, and the prompts; code that somebody unfolds
  // from the View menu is shown.
  const STYLE = `
    .${OWN} .jp-InputPlaceholder {
      display: none;
    }
    .${OWN} :is(.jp-OutputPrompt, .jp-OutputCollapser) {
      visibility: hidden;
    }`;

  const isFlagged = (panel) =>
    panel.content.model?.getMetadata(FLAG)?.runs_on_opening === true;

  function isOwn(cell) {
    const source = cell.model.sharedModel.getSource();
    return cell.model.type === "code" && (WHOLE.has(source) || CARD.test(source));
  }

  async function canShadow(contents, path) {
    const cut = path.lastIndexOf("/");
    const folder = await contents.get(cut < 0 ? "" : path.slice(0, cut));
    return folder.content.some(
      (entry) => entry.type === "directory" || IMPORTABLE.test(entry.name),
    );
  }

  function markCells(panel) {
    for (const cell of panel.content.widgets) {
      const mark = () => cell.toggleClass(OWN, isOwn(cell));
      mark();
      cell.model.contentChanged.connect(mark);
    }
  }

  // Widgets of one kernel may be served by several threads, each with a queue of its own:
  // a click on "Check" could then be taken before the text that was typed ahead of it,
  // and old text after new. One queue keeps the order in which a student did things.
  function keepOrder({ sessionContext }) {
    const kernel = sessionContext.session?.kernel;
    if (kernel) kernel.commsOverSubshells = "disabled";
  }

  // Cells are sent one behind the other at once; the first that fails stops the rest.
  // The notebook's own command would move to the last cell, and away from the top.
  function runCells(panel, CodeCell) {
    for (const cell of panel.content.widgets.filter(isOwn)) {
      CodeCell.execute(cell, panel.sessionContext).catch(() => {});
    }
  }

  function runAfterRestart(panel, { CodeCell, NotebookActions }) {
    const { sessionContext } = panel;
    let isDown = false;
    const wait = (_, { notebook }) => {
      if (notebook === panel.content) isDown = false;
    };
    NotebookActions.executionScheduled.connect(wait);
    panel.disposed.connect(() => NotebookActions.executionScheduled.disconnect(wait));
    sessionContext.statusChanged.connect((_, status) => {
      if (status === "restarting" || status === "autorestarting") isDown = true;
      if (status !== "idle" || !isDown) return;
      // Time for "Restart Kernel and Run All Cells" to begin the same by itself.
      setTimeout(() => {
        if (isDown && !panel.isDisposed) runCells(panel, CodeCell);
        isDown = false;
      }, 300);
    });
  }

  async function open(panel, contents, jupyter) {
    await panel.context.ready;
    await panel.revealed;
    if (!isFlagged(panel)) return;
    markCells(panel);
    if (await canShadow(contents, panel.context.path)) {
      console.info(`${NAME}: nothing is run, since the folder holds what Python imports.`);
      return;
    }
    await panel.sessionContext.ready;
    if (panel.isDisposed) return;
    keepOrder(panel);
    panel.sessionContext.kernelChanged.connect(() => keepOrder(panel));
    runCells(panel, jupyter.CodeCell);
    runAfterRestart(panel, jupyter);
  }

  function lay(css) {
    const style = document.createElement("style");
    style.textContent = css;
    document.head.append(style);
  }

  function makePlugin({ CodeCell }, { INotebookTracker, NotebookActions }) {
    return {
      id: `${NAME}:opening`,
      description: "Opens a notebook of the workbook with its cards live.",
      autoStart: true,
      requires: [INotebookTracker],
      activate: (app, tracker) => {
        lay(STYLE);
        tracker.widgetAdded.connect((_, panel) => {
          open(panel, app.serviceManager.contents, { CodeCell, NotebookActions }).catch(
            (error) => console.warn(`${NAME}: ${error}`),
          );
        });
      },
    };
  }

  let shared;

  async function load(module) {
    const [{ get }] = Object.values(shared[module]);
    return (await get())();
  }

  window._JUPYTERLAB = window._JUPYTERLAB ?? {};
  window._JUPYTERLAB[NAME] = {
    init: (scope) => {
      shared = scope;
    },
    get: async () => {
      const cells = await load("@jupyterlab/cells");
      const notebook = await load("@jupyterlab/notebook");
      return () => ({ __esModule: true, default: makePlugin(cells, notebook) });
    },
  };
})();
