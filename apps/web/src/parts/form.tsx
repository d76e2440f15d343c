import type { FormHTMLAttributes, ReactNode } from 'react';

/** What was filled in, by the names of the controls. */
export class Filled {
  private readonly values: FormData;

  constructor(readonly form: HTMLFormElement) {
    this.values = new FormData(form);
  }

  /** Without the blanks around it; '' where nothing was filled in. */
  text(name: string): string {
    return this.asIs(name).trim();
  }

  /** As it was typed: passwords may begin with a blank. */
  asIs(name: string): string {
    const value = this.values.get(name);
    return typeof value === 'string' ? value : '';
  }

  /** Null where nothing was filled in. */
  textOrNull(name: string): string | null {
    return this.text(name) || null;
  }

  number(name: string): number {
    return Number(this.text(name));
  }

  ticked(name: string): boolean {
    return this.values.has(name);
  }

  /** The values of all ticked boxes of one name. */
  all(name: string): string[] {
    return this.values.getAll(name).filter((value) => typeof value === 'string');
  }

  file(name: string): File | null {
    const value = this.values.get(name);
    return value instanceof File && value.size > 0 ? value : null;
  }
}

interface FormProps extends Omit<FormHTMLAttributes<HTMLFormElement>, 'onSubmit'> {
  send: (filled: Filled) => Promise<void>;
  children: ReactNode;
}

/** A form that is sent by its script; what is wrong in it the server says, in words. */
export function Form({ send, children, ...rest }: FormProps) {
  return (
    <form
      noValidate
      {...rest}
      onSubmit={(event) => {
        event.preventDefault();
        void send(new Filled(event.currentTarget));
      }}
    >
      {children}
    </form>
  );
}
