export interface Question<Answer extends string> {
  readonly title: string;
  readonly text: string;
  /** From the left. The last is the careful one: it has the focus, and Escape means it. */
  readonly answers: readonly { readonly answer: Answer; readonly label: string }[];
}

/** Asks in a dialog of the page; nothing else can be done until it is answered. */
export function ask<Answer extends string>({ answers, text, title }: Question<Answer>): Promise<Answer> {
  const dialog = document.createElement("dialog");
  dialog.className = "question";
  const heading = part("h2", title);
  heading.id = "question-title";
  const words = part("p", text);
  words.id = "question-text";
  dialog.setAttribute("aria-labelledby", heading.id);
  dialog.setAttribute("aria-describedby", words.id);
  const buttons = document.createElement("div");
  const careful = answers[answers.length - 1];
  if (!careful) throw new Error("A question needs an answer.");
  for (const { answer, label } of answers) {
    const button = part("button", label);
    button.type = "button";
    button.autofocus = answer === careful.answer;
    button.addEventListener("click", () => dialog.close(answer));
    buttons.append(button);
  }
  dialog.append(heading, words, buttons);
  // The grid takes keys for its own, wherever they are pressed.
  dialog.addEventListener("keydown", (event) => event.stopPropagation());
  document.body.append(dialog);
  dialog.showModal();
  return new Promise((resolve) => {
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(answers.find(({ answer }) => answer === dialog.returnValue)?.answer ?? careful.answer);
    });
  });
}

function part<Name extends "button" | "h2" | "p">(name: Name, text: string): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  element.textContent = text;
  return element;
}
